// SPDX-License-Identifier: GPL-3.0-or-later
// The rigid motion of the plane that best lays one set of points over another.
#pragma once

#include <vector>

#include "core/geometry/shapes.h"

namespace rackside::measure {

// Least squares, no change of scale. The two lists are of one length, at least 2.
Pose rigidFit(const std::vector<Point>& from, const std::vector<Point>& to);

}  // namespace rackside::measure
