// SPDX-License-Identifier: GPL-3.0-or-later
// Along which directions lines run in a part of a picture: grain and straight sides make one narrow
// peak.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "vision/face/face_views.h"

namespace rackside {

// Strength by direction, half a degree a bin over half a turn from -90°, of the pixels in `where`.
std::vector<double> lineDirections(const CoarseFace& face, const cv::Mat& where);
// The strongest direction, rad, weighed by how near it is to the expected one; trust 0: anywhere.
double peakDirection(const std::vector<double>& bins, double expectedRad, double spreadRad,
                     double trust);
double wrapHalfTurn(double angleRad);
std::pair<Point, Point> farthestPair(const std::vector<Point>& points);

}  // namespace rackside
