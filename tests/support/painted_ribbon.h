// SPDX-License-Identifier: GPL-3.0-or-later
// Unrolled bands painted for tests: a straight arris at offset 0, a light of one's own choice on
// either side, grain and noise over all.
#pragma once

#include "vision/face/edge_ribbon.h"

namespace rackside::test {

inline constexpr double kRibbonStepMm = 0.25;

inline const cv::Vec3f kBrownLight{0.08F, 0.12F, 0.19F};  // linear, blue first
inline const cv::Vec3f kGreyLight{0.23F, 0.28F, 0.33F};

// `colourAt(offset, row)`: linear light, offset in mm outward from the ribbon's line.
template <class Colour>
EdgeRibbon paintedRibbon(double wallMm, Colour colourAt) {
  constexpr int kMiddle = 160, kColumns = 240, kRows = 800;
  EdgeRibbon r;
  r.stepMm = kRibbonStepMm, r.middle = kMiddle;
  for (int i = 0; i < kRows; ++i)
    r.rows.push_back({{i * 1.5, 0}, {0, 1}, wallMm, 0.5, false, true});
  cv::RNG random(3);
  cv::Mat grain(kRows, kColumns, CV_32F);
  random.fill(grain, cv::RNG::NORMAL, 1, 0.06);
  r.light.create(kRows, kColumns, CV_32FC3);
  for (int y = 0; y < kRows; ++y)
    for (int x = 0; x < kColumns; ++x)
      r.light.at<cv::Vec3f>(y, x) =
          grain.at<float>(y, x) * cv::Vec3f(colourAt((x - kMiddle) * kRibbonStepMm, y));
  return r;
}

}  // namespace rackside::test
