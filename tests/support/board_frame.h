// SPDX-License-Identifier: GPL-3.0-or-later
// The board frame of a true outline, reckoned straight from its definition in core/wood/board.h and
// apart from the program's own code, so that it can check it.
#pragma once

#include <optional>
#include <vector>

#include "core/geometry/shapes.h"

namespace rackside::synthetic {

// x along the least-squares line through the middles of the cross sections, origin at the corner of
// the outline's box along that axis.
Pose boardFrameOf(const Polygon& outline);  // boardFromOutline

// Chord across at x, from the lowest to the highest border met.
std::optional<double> chordAt(const Polygon& outline, double x);

struct WidthAt {
  double atMm = 0, widthMm = 0;
};
std::vector<WidthAt> chordsEvery(const Polygon& outline, double stepMm);

}  // namespace rackside::synthetic
