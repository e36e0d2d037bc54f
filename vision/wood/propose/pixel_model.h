// SPDX-License-Identifier: GPL-3.0-or-later
// Which kind of mark each pixel of a face may belong to.
#pragma once

#include <array>
#include <opencv2/core.hpp>
#include <string_view>

#include "vision/wood/propose/boosted_trees.h"
#include "vision/wood/propose/pixel_features.h"

namespace rackside {

enum class PixelKind : uint8_t { clear, knot, crack, gum, pith, streak, stain };
inline constexpr int kPixelKinds = 7;

struct PixelModel {
  BoostedTrees gate;   // two classes, quick: clear or not; the clear goes no further
  BoostedTrees kinds;  // kPixelKinds classes
};

// CV_32F maps, one a kind, that sum to 1 wherever there is wood.
using KindMaps = std::array<cv::Mat, kPixelKinds>;

KindMaps kindMaps(const PixelModel& model, const PixelFeatures& features, const WoodTone& tone);

}  // namespace rackside
