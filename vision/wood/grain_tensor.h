// SPDX-License-Identifier: GPL-3.0-or-later
// Directions from gradients (the structure tensor, Förstner and Gülch 1987): along the grain the
// tone hardly changes, across it much.
#pragma once

#include <cmath>
#include <opencv2/core.hpp>

namespace rackside {

// Sums of products of gradients over some region.
struct GrainTensor {
  double xx = 0, yy = 0, xy = 0;
  // Direction of the grain, -pi/2..pi/2 from +x.
  double angleRad() const {
    const double gradient = 0.5 * std::atan2(2 * xy, xx - yy);
    return gradient > 0 ? gradient - CV_PI / 2 : gradient + CV_PI / 2;
  }
  // 0: no direction, 1: one direction only.
  double coherence() const {
    const double sum = xx + yy;
    return sum > 0 ? std::hypot(xx - yy, 2 * xy) / sum : 0;
  }
};

struct TensorImages {
  cv::Mat1f xx, yy, xy;
};

// Products of the gradients of `tone` (per mm) averaged over cells of cellPx pixels, of which
// `wood` says what counts; weighted by the share of wood in the cell.
TensorImages gradientProducts(const cv::Mat1f& tone, const cv::Mat1b& wood, double mmPerPx,
                              cv::Size cells);

// The image averaged over cells that divide it evenly.
cv::Mat1f overCells(const cv::Mat1f& image, cv::Size cells);

// Mean over about three centimetres of what overCells() gave weighted with the share of wood.
cv::Mat1f broadMean(const cv::Mat1f& weighted, const cv::Mat1f& share, double cellMm);

}  // namespace rackside
