// SPDX-License-Identifier: GPL-3.0-or-later
// Reading grey values between pixels, and moving points through a homography.
#pragma once

#include <opencv2/core.hpp>

namespace rackside {

// Bilinear, clamped at the border; CV_8UC1.
inline double sampleAt(const cv::Mat& grey, cv::Point2d p) {
  const double x = std::min(std::max(p.x, 0.0), grey.cols - 1.001);
  const double y = std::min(std::max(p.y, 0.0), grey.rows - 1.001);
  const int c = static_cast<int>(x), r = static_cast<int>(y);
  const double fx = x - c, fy = y - r;
  const uchar* upper = grey.ptr<uchar>(r) + c;
  const uchar* lower = grey.ptr<uchar>(r + 1) + c;
  return (1 - fy) * ((1 - fx) * upper[0] + fx * upper[1]) +
         fy * ((1 - fx) * lower[0] + fx * lower[1]);
}

inline bool insideBy(const cv::Mat& grey, cv::Point2d p, double marginPx) {
  return p.x >= marginPx && p.y >= marginPx && p.x <= grey.cols - 1 - marginPx &&
         p.y <= grey.rows - 1 - marginPx;
}

inline cv::Point2d through(const cv::Matx33d& h, double x, double y) {
  const double w = h(2, 0) * x + h(2, 1) * y + h(2, 2);
  return {(h(0, 0) * x + h(0, 1) * y + h(0, 2)) / w, (h(1, 0) * x + h(1, 1) * y + h(1, 2)) / w};
}

}  // namespace rackside
