// SPDX-License-Identifier: GPL-3.0-or-later
// What tells a board's wood from what lies around it: by colour (two mixtures of Gaussians in Lab)
// and by texture (which way it runs and how strong it is), learned from places believed to be one
// and the other.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

struct WoodSample {
  cv::Vec3f lab;      // OpenCV's 8-bit scale
  cv::Vec2b texture;  // as textureOf() gives it
};

// Per pixel CV_8UC2: how much of the change of lightness runs along x (0: none, 255: all), and how
// much change there is (logarithmic), both over a neighbourhood of `windowPx`.
cv::Mat textureOf(const cv::Mat& lab, int windowPx);

class WoodModel {
 public:
  // With too few samples of either the model says 0 everywhere.
  WoodModel(const std::vector<WoodSample>& wood, const std::vector<WoodSample>& ground);
  // log(p(wood) / p(ground)): colour clipped to ±3, texture to ±1; 0 where neither knows.
  float evidence(const WoodSample& sample) const;
  // lab: CV_32FC3, texture: CV_8UC2 → CV_32F
  cv::Mat evidence(const cv::Mat& lab, const cv::Mat& texture) const;

 private:
  static constexpr int kBits = 5;         // the colour table has 32 steps a channel
  static constexpr int kTextureBits = 4;  // the texture table 16
  static size_t colourIndex(int light, int a, int b) {
    return (size_t(light) << (2 * kBits)) + (size_t(a) << kBits) + size_t(b);
  }
  std::vector<float> colour_, texture_;
};

}  // namespace rackside
