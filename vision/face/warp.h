// SPDX-License-Identifier: GPL-3.0-or-later
// One photograph drawn on a raster of the plane, with the right amount of smoothing where it is
// made smaller.
#pragma once

#include "vision/face/plane_raster.h"

namespace rackside {

// A photograph and its halvings, made when first asked for.
class PhotoPyramid {
 public:
  explicit PhotoPyramid(cv::Mat bgr) : levels_{std::move(bgr)} {}
  // The level whose pixels are nearest to, and not coarser than, `sourcePxPerPx` source pixels.
  // Not for several threads at once until prepare() made the levels.
  void prepare(double sourcePxPerPx);
  int levelFor(double sourcePxPerPx) const;
  const cv::Mat& level(int n) const { return levels_[size_t(n)]; }

 private:
  std::vector<cv::Mat> levels_;
};

struct Warped {
  cv::Mat bgr;    // CV_8UC3
  cv::Mat valid;  // CV_8U, 255 where the photograph reaches
};

// Tile by tile on all cores. `interpolation`: cv::INTER_LINEAR or cv::INTER_CUBIC.
Warped warp(PhotoPyramid& photo, const ImageGrid& grid, cv::Size size, int interpolation);

// One tile, into `out` of the tile's size.
void warpTile(const PhotoPyramid& photo, const ImageGrid& grid, const cv::Rect& tile,
              int interpolation, cv::Mat& bgr, cv::Mat& valid);

}  // namespace rackside
