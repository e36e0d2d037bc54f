// SPDX-License-Identifier: GPL-3.0-or-later
// What a plan asks of the saw, counted by hand: each cut replayed on the board, and what comes off
// it measured. Written apart from the planner and its checker: it works in the frame of each cut
// and cuts polygons with the clipping library.
#pragma once

#include <string>
#include <vector>

#include "core/plan/planner.h"

namespace rackside::testing {

struct Sawing {
  int boards = 0, pieces = 0;
  int cuts = 0, jointed = 0;              // by the saw; edges on the jointer
  int trims = 0, firstRips = 0;           // of the cuts; jointed edges are no rips
  int thin = 0;                           // take off a slice that rule 2 forbids
  int under3 = 0;                         // take off less than 3 mm everywhere
  int trimsUnder10 = 0, ripsWithin3 = 0;  // … and first rips within 3 mm of the rough edge
  int trimmedTwice = 0;                   // blanks trimmed at both ends that need not be
  double boardsM2 = 0;                    // of the boards cut into
  std::vector<std::string> faults;        // of rule 2, in words
  Sawing& operator+=(const Sawing& more);
};
Sawing sawingOf(const PlanRequest& request, const Plan& plan);

}  // namespace rackside::testing
