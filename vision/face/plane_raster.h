// SPDX-License-Identifier: GPL-3.0-or-later
// A grid of pixels laid on the plane of the face, and where each falls in a photograph.
//
// Frames: raster pixels (centres at integers), plane mm, image pixels (see adjustment.h).
#pragma once

#include <opencv2/core.hpp>

#include "vision/measure/adjustment.h"

namespace rackside {

struct PlaneRaster {
  cv::Size size;
  cv::Matx23d planeFromPixel;
  Point plane(double px, double py) const;
  cv::Point2d pixel(Point planeMm) const;
  double mmPerPx() const;
};

// A raster over `region` of a frame that lies in the plane as `planeFromFrame` says. `yUp`: the
// rows run with the frame's y (for computing); otherwise against it (for looking at).
PlaneRaster rasterOver(const Rect& region, const Pose& planeFromFrame, double mmPerPx, bool yUp);

// The image points of a raster's pixels, interpolated from exact ones every few pixels (error below
// 0.02 px for grids of 8 mm and cameras a metre away).
class ImageGrid {
 public:
  ImageGrid(const Adjustment& adjustment, size_t photo, const PlaneRaster& raster,
            double stepMm = 8, double zMm = 0);
  // Fills `map` (CV_32FC2) for the pixels of `tile`; NaN where the photograph does not reach.
  void map(const cv::Rect& tile, cv::Mat& map) const;
  cv::Point2f at(double px, double py) const;
  // Source pixels per raster pixel around here, the larger of the two directions.
  double scaleAt(double px, double py) const;
  bool sees(const cv::Rect& tile) const;  // some node of the tile is in the photograph

 private:
  double stepPx_ = 1;
  cv::Mat nodes_;  // CV_32FC2
};

// The part of the plane that a photograph shows: its border traced onto the plane, as far as
// `reachMm` from `around`.
Polygon footprint(const Adjustment& adjustment, size_t photo, cv::Size size, Point around,
                  double reachMm);

// Millimetres on the face per photograph pixel at a place: the finest and the coarsest direction.
struct Sampling {
  double finestMm = 0, coarsestMm = 0;
};
Sampling samplingAt(const Adjustment& adjustment, size_t photo, Point planeMm);

}  // namespace rackside
