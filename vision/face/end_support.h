// SPDX-License-Identifier: GPL-3.0-or-later
// How far across the end of a board reaches: the sawn end is one straight step that runs over heart
// and sapwood alike and stops at the corners; a neighbour's end lies elsewhere. Where the step
// stops, the long sides begin.
#pragma once

#include <optional>

#include "vision/face/rough_outline.h"

namespace rackside {

struct EndSpan {
  double lower = 0, upper = 0;  // y of the corners, axis frame
};

// `coreY`: where wood is taken for granted. Empty where the end is too faint, or where steps run on
// far past every corner, so that nothing can be told.
std::optional<EndSpan> endSpan(const AxisFace& axis, const RoughSide& end, double coreY);

}  // namespace rackside
