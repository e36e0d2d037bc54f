// SPDX-License-Identifier: GPL-3.0-or-later
// The ways people photograph a board, as simulated cases: what the coverage benchmark and its
// faster tests run.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "tests/support/measure_simulation.h"

namespace rackside::simulation {

struct Case {
  std::string name;
  std::function<Setup(std::mt19937_64&)> make;  // cameras and cards jittered by the random source
  double edgeSigmaPx = 0;                       // noise of every edge reading
  bool total = false;                           // scored on u95Total
  // Bars of 95 % error, mm; 0: none.
  double lengthBarMm = 0, widthBarMm = 0;
};
std::vector<Case> measureCases();

}  // namespace rackside::simulation
