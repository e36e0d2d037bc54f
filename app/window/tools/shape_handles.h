// SPDX-License-Identifier: GPL-3.0-or-later
// Reshaping a mark: its handles, and the shape after one was moved. Pure, in board mm.
#pragma once

#include <optional>
#include <vector>

#include "core/wood/mark.h"

namespace rackside {

// Polygon and stroke: one handle a vertex. Ellipse: the ends of its two axes, in the order
// +first, +second, −first, −second.
std::vector<Point> handlesOf(const MarkShape& shape);
MarkShape withHandleAt(MarkShape shape, size_t handle, Point to);
MarkShape movedBy(MarkShape shape, Point delta);
// A vertex set into the nearest side, and its index; empty for an ellipse or farther than reachMm.
std::optional<std::pair<MarkShape, size_t>> withVertexNear(MarkShape shape, Point at,
                                                           double reachMm);
// Empty when too few would remain, or for an ellipse.
std::optional<MarkShape> withoutHandle(MarkShape shape, size_t handle);
// Counter-clockwise, as marks are stored.
Polygon turnedCounterClockwise(Polygon polygon);
// Fewer vertices, none farther than toleranceMm from the line (Douglas and Peucker 1973).
std::vector<Point> thinned(const std::vector<Point>& line, double toleranceMm);

}  // namespace rackside
