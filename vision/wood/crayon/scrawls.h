// SPDX-License-Identifier: GPL-3.0-or-later
// The scrawls of one colour on a face: what lies close together and is as wide as a stick draws.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

// One scrawl: what lies close together of one colour.
struct Scrawl {
  cv::Rect box;  // in the picture
  cv::Mat mask;  // CV_8U of box's size
  double mmPerPx = 1;
  double widthMm = 0;  // of the stroke
};

// From the share of pigment (pigment.h). Patches broader than any stick draws, such as glare on a
// planed face, are left out, and so is what runs along the border of the wood: sapwood, an arris.
std::vector<Scrawl> scrawlsOf(const cv::Mat& share, const cv::Mat& wood, double mmPerPx);

}  // namespace rackside
