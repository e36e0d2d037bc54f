// SPDX-License-Identifier: GPL-3.0-or-later
// Smoothing along a side without being led by outliers.
#pragma once

#include <vector>

#include "core/geometry/shapes.h"

namespace rackside {

// Running median and mean of y over a few points; points not to keep are bridged by a straight
// line.
std::vector<Point> smoothed(const std::vector<Point>& line, const std::vector<bool>& keep);

struct SmoothOffsets {
  std::vector<double> offset;
  std::vector<double> sigma;  // one standard deviation of the smoothed offset
  std::vector<double> gapMm;  // length of the gap that a bridged point lies in, 0 elsewhere
};

// Offsets measured every stepMm with weights (0: not measured): a robust local line over a short
// window; gaps are bridged from both sides.
SmoothOffsets smoothOffsets(const std::vector<double>& offset, const std::vector<double>& weight,
                            double stepMm);

}  // namespace rackside
