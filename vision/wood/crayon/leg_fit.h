// SPDX-License-Identifier: GPL-3.0-or-later
// Fits straight legs of one width to a scrawl: one leg, two that meet, two that cross.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

struct Leg {
  cv::Point2d from, to;  // pixels of the mask
  double lengthPx() const { return cv::norm(to - from); }
};

struct LegFit {
  std::vector<Leg> legs;
  double agreement = 0;  // what scrawl and legs share of all that either covers, 0..1
};

// All of them take a CV_8U mask with room round the scrawl for the legs' width. A fit that cannot
// be made has no legs.
LegFit fitOneLeg(const cv::Mat& mask, double widthPx);
// Two legs from one point, each `leastPx` long and more, at an angle that is neither sharp nor
// flat.
LegFit fitBend(const cv::Mat& mask, double widthPx, double leastPx);
// Two legs that cross well inside both, so that four arms of at least `leastPx` stand out.
LegFit fitCrossing(const cv::Mat& mask, double widthPx, double leastPx);

}  // namespace rackside
