// SPDX-License-Identifier: GPL-3.0-or-later
// Draws the outline of a hollow in to its rim. What is known of a pit from its surroundings, or
// from a hand that ringed it, is wider than its mouth, and filler is bought for the mouth.
#pragma once

#include <opencv2/core.hpp>
#include <optional>

#include "core/geometry/polygon.h"

namespace rackside {

// `bgr`: CV_8UC3, sRGB. `about`: rough outline, pixels of the picture (centres at integers), that
// covers the mouth. Returns the line along which the light has fallen halfway from the wood round
// about to the dark of the hollow: blur moves that line least. Empty where it is not dark as a
// hollow is, or where the dark is no single region.
std::optional<Polygon> pitRim(const cv::Mat& bgr, double mmPerPx, const Polygon& about);

}  // namespace rackside
