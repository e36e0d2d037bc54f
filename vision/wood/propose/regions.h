// SPDX-License-Identifier: GPL-3.0-or-later
// Regions of a face that may be marks: connected pieces of the kind maps at several levels, each
// with what it is judged by.
#pragma once

#include <cstdint>
#include <opencv2/core.hpp>
#include <vector>

#include "vision/wood/propose/pixel_model.h"

namespace rackside {

struct Region {
  PixelKind source = PixelKind::knot;  // the map it was cut from; `clear`: from all that is not
  float level = 0;                     // of that map
  cv::Rect box;
  cv::Mat mask;  // CV_8U, of box's size, 255 inside
  double areaPx = 0;
  std::vector<uint8_t> features;  // regionFeatureCount() bytes
};

std::vector<Region> findRegions(const KindMaps& maps, const WoodTone& tone);
int regionFeatureCount();

// Pixels common to both.
double overlapPx(const Region& a, const Region& b);

}  // namespace rackside
