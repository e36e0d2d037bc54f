// SPDX-License-Identifier: GPL-3.0-or-later
// What each pixel of a face is told apart by: its tone against the wood round it at several scales,
// ridges and blobs, the direction and liveliness of the figure, each as one byte.
#pragma once

#include <cstdint>
#include <vector>

#include "vision/wood/propose/boosted_trees.h"
#include "vision/wood/propose/wood_tone.h"

namespace rackside {

struct PixelFeatures {
  int rows = 0, cols = 0, width = 0;  // `width` bytes a pixel
  std::vector<uint8_t> bytes;         // row by row, pixel by pixel
  const uint8_t* at(int y, int x) const {
    return &bytes[(static_cast<size_t>(y) * static_cast<size_t>(cols) + static_cast<size_t>(x)) *
                  static_cast<size_t>(width)];
  }
};

PixelFeatures pixelFeatures(const WoodTone& tone);

}  // namespace rackside
