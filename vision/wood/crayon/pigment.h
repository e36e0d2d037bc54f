// SPDX-License-Identifier: GPL-3.0-or-later
// Where a colour of crayon lies on the wood.
#pragma once

#include "vision/wood/crayon/crayon.h"

namespace rackside {

// Share of the pixel that the pigment covers, 0..1, CV_32F of bgr's size, 0 outside the wood: how
// far the pixel has gone from the wood round about towards the pigment, and no other way.
cv::Mat pigmentShare(const cv::Mat& bgr, const cv::Mat& wood, CrayonColour colour);

}  // namespace rackside
