// SPDX-License-Identifier: GPL-3.0-or-later
// Regions of a face that may be marks: connected pieces of the kind maps, each with what kind it is
// most likely of and how sure that there is a mark.
#pragma once

#include "vision/wood/propose/kind_maps.h"

namespace rackside {

struct Region {
  RegionKind kind = RegionKind::none;
  cv::Rect box;
  cv::Mat mask;  // CV_8U, of box's size, 255 inside
  double areaPx = 0;
  double meanProbability = 0, topProbability = 0;  // of its family
  double confidence = 0;
};

// In pixels of the picture that the maps were made from; surest first. Nothing at places where
// `wood` is 0.
std::vector<Region> findRegions(const KindMaps& maps, const cv::Mat& wood, const MarkModel& model);

// Pixels common to both.
double overlapPx(const Region& a, const Region& b);

}  // namespace rackside
