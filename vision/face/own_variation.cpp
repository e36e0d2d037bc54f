// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/own_variation.h"

#include <algorithm>

namespace rackside {
namespace {

constexpr float kTrimmed = 1.6f;  // makes up for the wildest quarter left out of a spread
constexpr size_t kFewest = 50;

}  // namespace

cv::Matx33f inverseOwnVariation(std::vector<cv::Vec3f> seen, double floorSigma) {
  const float floor = float(floorSigma * floorSigma);
  cv::Matx33f inverse = cv::Matx33f::eye() * (1 / (4 * floor));
  for (int pass = 0; pass < 2 && seen.size() >= kFewest; ++pass) {
    const auto size = [&](const cv::Vec3f& d) { return d.dot(inverse * d); };
    const size_t keep = seen.size() * 3 / 4;
    std::nth_element(seen.begin(), seen.begin() + std::ptrdiff_t(keep), seen.end(),
                     [&](const auto& a, const auto& b) { return size(a) < size(b); });
    cv::Matx33f spread = cv::Matx33f::zeros();
    for (size_t i = 0; i < keep; ++i) spread += seen[i] * seen[i].t();
    inverse = (spread * (kTrimmed / float(keep)) + cv::Matx33f::eye() * floor).inv();
  }
  return inverse;
}

}  // namespace rackside
