// SPDX-License-Identifier: GPL-3.0-or-later
// Dark quadrilaterals in a picture: where codes may be.
#pragma once

#include <array>
#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

// Clockwise as seen, image frame.
using Quad = std::array<cv::Point2d, 4>;

// Quadrilaterals with sides of at least leastSidePx, dark inside: at least leastContrast grey
// levels darker than the mean of their surroundings. Corners within about a pixel.
std::vector<Quad> darkQuads(const cv::Mat& grey, double leastSidePx, double leastContrast);

// Each side moved to the edge in `grey` (within reachPx) by a line through the steepest points;
// empty when a side has no clear edge.
bool refineQuad(const cv::Mat& grey, double reachPx, Quad& quad);

}  // namespace rackside
