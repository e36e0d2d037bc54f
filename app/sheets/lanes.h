// SPDX-License-Identifier: GPL-3.0-or-later
// Labels beside a drawing, in rows ("lanes"), so that none covers another.
#pragma once

#include <QString>
#include <vector>

namespace rackside::sheets {

struct LaneLabel {
  double wantedX = 0;  // where its middle would best be, paper mm
  double width = 0;    // paper mm
  double x = 0;        // its left border once placed
  int lane = -1;       // -1: no room
};

// Places the labels between left and right in at most `lanes` rows, each as near as can be to where
// it wants to be, in the lowest row that has room there; a label that finds none keeps lane -1.
void placeInLanes(std::vector<LaneLabel>& labels, int lanes, double left, double right,
                  double gapMm);

}  // namespace rackside::sheets
