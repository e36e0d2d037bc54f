// SPDX-License-Identifier: GPL-3.0-or-later
// A side of a board to a fraction of a pixel: the photograph itself is read along short lines
// across the rough side, in linear light, and the top arris is placed where its step of brightness
// is steepest.
#pragma once

#include "vision/face/rough_outline.h"

namespace rackside {

struct EdgePoint {
  Point at;            // axis frame
  double sigmaMm = 0;  // across the side
  EdgeState state = EdgeState::sure;
};

// Points every kEdgeStepMm along the side, in the order of `side.line`, between `from` and `to`
// (along the side).
inline constexpr double kEdgeStepMm = 1.5;
std::vector<EdgePoint> refineSide(FaceViews& views, const RoughOutline& outline,
                                  const RoughSide& side, double from, double to);

}  // namespace rackside
