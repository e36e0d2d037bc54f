// SPDX-License-Identifier: GPL-3.0-or-later
// The two long edges of a board, taken out of its outline, and the widest strip between them.
#pragma once

#include <vector>

#include "core/wood/board.h"

namespace rackside {

// Each from the left end to the right, without the end cuts (what runs steeper than 45° against the
// axis at either end).
struct LongEdges {
  std::vector<Point> near;  // of least y
  std::vector<Point> far;
};
LongEdges longEdges(const Outline& outline);

// What two straight parallel rips along the whole board leave at most.
struct StraightStrip {
  double widthMm = 0;   // 0: the edges leave nothing
  double angleRad = 0;  // of the strip against the board's axis
  Polygon corners;      // over the length that both edges have, counter-clockwise
};
StraightStrip widestStraightStrip(const Outline& outline);

}  // namespace rackside
