// SPDX-License-Identifier: GPL-3.0-or-later
// What tells a board's wood from what lies around it, by colour: two mixtures of Gaussians in Lab,
// learned from pixels believed to be one and the other.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

class WoodModel {
 public:
  // Samples are Lab (OpenCV's 8-bit scale, CV_32FC3 values). With too few of either the model says 0
  // everywhere.
  WoodModel(const std::vector<cv::Vec3f>& wood, const std::vector<cv::Vec3f>& ground);
  // log(p(wood) / p(ground)), clipped to ±3; 0 where neither knows the colour.
  float evidence(const cv::Vec3f& lab) const;
  cv::Mat evidence(const cv::Mat& lab) const;  // CV_32FC3 → CV_32F

 private:
  static constexpr int kBits = 5;  // the table has 32 steps a channel
  std::vector<float> table_;
};

}  // namespace rackside
