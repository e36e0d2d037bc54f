// SPDX-License-Identifier: GPL-3.0-or-later
// An edge's offsets, read at even steps with errors, made into one smooth line with its
// uncertainty.
//
// Method: the offset is taken for the integral of a slope that wanders at random (an integrated
// Wiener process, a cubic smoothing spline in other words); Kalman filter and Rauch-Tung-Striebel
// smoother; how much the slope wanders is chosen by greatest likelihood, so that a sawn edge is
// smoothed over long stretches and a live one is followed; readings far off the line lose weight.
#pragma once

#include <vector>

namespace rackside {

struct OffsetReading {
  double offsetMm = 0;
  double sigmaMm = 0;  // <= 0: nothing was read here
};

struct SmoothOffset {
  double offsetMm = 0;
  double sigmaMm = 0;
};

std::vector<SmoothOffset> smoothOffsets(const std::vector<OffsetReading>& readings, double stepMm);

}  // namespace rackside
