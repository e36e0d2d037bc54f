// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/pixel_model.h"

namespace rackside {
namespace {

// Below this chance of being anything a pixel is clear.
constexpr float kGate = 0.04F;

}  // namespace

KindMaps kindMaps(const PixelModel& model, const PixelFeatures& features, const WoodTone& tone) {
  KindMaps maps;
  for (cv::Mat& m : maps) m = cv::Mat::zeros(features.rows, features.cols, CV_32F);
  maps[0].setTo(1);
  cv::parallel_for_({0, features.rows}, [&](const cv::Range& range) {
    std::array<float, kPixelKinds> p{};
    for (int y = range.start; y < range.end; ++y)
      for (int x = 0; x < features.cols; ++x) {
        if (!tone.wood.at<uint8_t>(y, x)) continue;
        const uint8_t* row = features.at(y, x);
        model.gate.probabilities(row, p.data());
        if (p[1] < kGate) continue;
        model.kinds.probabilities(row, p.data());
        for (size_t k = 0; k < p.size(); ++k) maps[k].at<float>(y, x) = p[k];
      }
  });
  return maps;
}

}  // namespace rackside
