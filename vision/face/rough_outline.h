// SPDX-License-Identifier: GPL-3.0-or-later
// The four sides of a board to a few millimetres, on the coarse face.
#pragma once

#include "vision/face/axis_face.h"

namespace rackside {

struct RoughSide {
  Side side = Side::lower;
  std::vector<Point> line;  // axis frame, by x (lower, upper) or by y (left, right)
  std::vector<BoundaryColumn> columns;
  OneCurve sawn = OneCurve::no;
};

struct RoughOutline {
  AxisFace axis;
  RoughSide lower, upper, left, right;
};

// Fails, saying which end, when the board runs out of the picture, and when nothing like a board is
// found about the strip.
Result<RoughOutline> roughOutline(FaceViews& views, const AxisGuess& guess);

}  // namespace rackside
