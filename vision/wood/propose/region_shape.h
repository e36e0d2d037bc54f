// SPDX-License-Identifier: GPL-3.0-or-later
// The editable shape of a region: an ellipse where one fits, a line for a crack, else a polygon.
#pragma once

#include "core/wood/mark.h"
#include "vision/wood/propose/regions.h"

namespace rackside {

// Pixels of the picture the region was found in, x to the right, y down (turn the shape over before
// it is laid on a board).
MarkShape shapeOf(const Region& region, RegionKind kind);

// Carries a shape over by x' = m[0] x + m[1] y + m[2], y' = m[3] x + m[4] y + m[5]; an outline that
// is turned over by it stays counter-clockwise, a width follows the scale.
MarkShape carried(const MarkShape& shape, const std::array<double, 6>& m);

}  // namespace rackside
