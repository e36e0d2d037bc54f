// SPDX-License-Identifier: GPL-3.0-or-later
// A line along the board's edge between two points that the maker clicked in a face picture: it
// snaps to the strongest steps of colour between them.
#pragma once

#include <array>
#include <opencv2/core.hpp>
#include <vector>

#include "core/geometry/shapes.h"

namespace rackside {

struct FollowOptions {
  double reachMm = 30;  // the line strays no farther from the straight one
  double stepMm = 5;    // between the points returned
};

struct FollowedPoint {
  Point at;            // board mm
  double sigmaMm = 0;  // across the line
};

// `bgr`: a face picture (CV_8UC3) with its `boardFromPicture` (core/wood/board.h). From `from` to
// `to`, both left out; empty when they lie so near to one another that there is nothing between.
// Where no edge is to be seen the line runs straight, with a large sigma.
std::vector<FollowedPoint> followEdge(const cv::Mat& bgr,
                                      const std::array<double, 6>& boardFromPicture, Point from,
                                      Point to, const FollowOptions& options = {});

}  // namespace rackside
