// SPDX-License-Identifier: GPL-3.0-or-later
// Smoothing along a side without being led by outliers.
#pragma once

#include <vector>

#include "core/geometry/shapes.h"

namespace rackside {

// Running median and mean of y over a few points; points not to keep are bridged by a straight
// line.
std::vector<Point> smoothed(const std::vector<Point>& line, const std::vector<bool>& keep);

}  // namespace rackside
