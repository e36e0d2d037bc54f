// SPDX-License-Identifier: GPL-3.0-or-later
// Steps of colour measured against those that the wood has within itself: grain mostly changes
// along one direction of colour, so a faint step across it can say more than a strong one along it.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

// Inverse spread of steps seen within the wood; the wildest tenth (knots, marks) has no say.
// `floor`: the standard deviation that noise alone would leave.
cv::Matx33f inverseOwnVariation(std::vector<cv::Vec3f> seen, double floor);

// About 0 for the wood's own variation, 1.6 at three times, 3.5 at eight times.
inline float significance(const cv::Vec3f& step, const cv::Matx33f& inverse) {
  return std::min(4.5f, std::log(1 + step.dot(inverse * step) / 2) - 0.7f);
}

}  // namespace rackside
