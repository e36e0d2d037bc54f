// SPDX-License-Identifier: GPL-3.0-or-later
// A plan of one board in the planner's own terms: columns and y' instead of cuts.
#pragma once

#include <vector>

#include "core/plan/board_map.h"

namespace rackside {

struct StripLayout {
  int kind = 0;
  int column = 0;       // where the blank starts
  double bottomMm = 0;  // y' in the section's direction
  double worth = 0;     // of all its copies there, towards the goal
};

// Wood from column `from` up to the crosscut that ends before column `to`; strips ascend in y'.
struct SectionLayout {
  int from = 0;
  int to = 0;
  int direction = 0;
  std::vector<StripLayout> strips;
};

struct BoardLayout {
  std::vector<SectionLayout> sections;  // ascending
  double value = 0;
};

}  // namespace rackside
