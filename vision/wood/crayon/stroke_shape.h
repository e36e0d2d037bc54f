// SPDX-License-Identifier: GPL-3.0-or-later
// What a stroke looks like: ring, cross, line or tick.
#pragma once

#include "vision/wood/crayon/crayon.h"

namespace rackside {

// One scrawl: what lies close together of one colour.
struct Scrawl {
  cv::Rect box;
  cv::Mat mask;  // CV_8U of box's size
  double mmPerPx = 1;
  double widthMm = 0;  // of the stroke
};

// Nothing when it is none of the four. Shapes in pixels of the picture that `box` lies in.
std::optional<CrayonStroke> strokeOf(const Scrawl& scrawl);

}  // namespace rackside
