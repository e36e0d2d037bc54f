// SPDX-License-Identifier: GPL-3.0-or-later
// A face picture made ready for looking for marks: its colours as differences from the wood round
// about, so that species, age and light matter little, and what is not wood filled in.
#pragma once

#include <opencv2/core.hpp>

namespace rackside {

// The sampling at which marks are looked for, mm per pixel.
inline constexpr double kProposeMmPerPx = 0.5;

struct WoodTone {
  // CV_32F, CIE L*a*b* (D65): difference from the wood within about 12 mm, 0 outside the wood.
  cv::Mat light, red, yellow;
  // The same, against the median of all the wood of the face, blurred to 2 mm.
  cv::Mat faceLight, faceRed, faceYellow;
  cv::Mat wood;       // CV_8U, 255 where it is wood
  cv::Mat edgePx;     // CV_32F, pixels to the nearest place that is not wood
  double detail = 1;  // robust standard deviation of `light`: how lively the figure is
};

// bgr: CV_8UC3 at kProposeMmPerPx, fibres along x. wood: CV_8U of its size.
WoodTone woodTone(const cv::Mat& bgr, const cv::Mat& wood);

}  // namespace rackside
