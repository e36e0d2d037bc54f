// SPDX-License-Identifier: GPL-3.0-or-later
// A ribbon of the photographs in small cells, and their colours averaged along the side.
#pragma once

#include "vision/face/edge_ribbon.h"

namespace rackside {

inline constexpr int kRibbonRowsPerCell = 4;
inline constexpr double kRibbonRowMm = 1.5;

struct RibbonCells {  // rows across from inner to outer, columns along
  // CV_32FC3: brightness as the eye steps it, cube root of linear light, about 0..100.
  cv::Mat colour;
  cv::Mat changes;  // CV_32FC3, changesAlong() of their light
  cv::Mat weight;   // CV_32F: 0 where a card or nothing is seen
  std::vector<double> wallMm;
  double acrossMm = 0;
  int middle = 0;
};

RibbonCells cellsOf(const EdgeRibbon& ribbon);

// A length along the side in cells, an odd number.
int ribbonCells(double alongMm);

// Sums of colours averaged along the side, from the innermost row on.
class RibbonSums {
 public:
  RibbonSums(const RibbonCells& cells, double alongMm);
  cv::Vec3f mean(int x, int from, int to) const {
    return (sum_.at<cv::Vec3f>(to, x) - sum_.at<cv::Vec3f>(from, x)) * (1.0f / float(to - from));
  }

 private:
  cv::Mat sum_;  // CV_32FC3, one row more than the cells
};

}  // namespace rackside
