// SPDX-License-Identifier: GPL-3.0-or-later
// The place of a chessboard corner to a few hundredths of a pixel, with its uncertainty.
//
// Model: grey(p) = a + b·E(d1/σ)·E(d2/σ) + c·(p − p0), E(t) = erf(t/√2), d1 and d2 the distances
// from two straight edges that cross in the saddle: two blurred edges, on light that changes
// evenly. Least squares over place, both directions, blur and light (Gauss–Newton with damping);
// the uncertainty is the fit's covariance scaled by its residual.
#pragma once

#include <opencv2/core.hpp>
#include <optional>

namespace rackside {

struct SaddleGuess {
  cv::Point2d px;
  // The card's x and y directions in the picture, px a mm there.
  cv::Point2d alongX, alongY;
  double reachMm = 0;      // half the window, in the card's directions
  bool darkFirst = false;  // the field towards +x and +y is black
};

struct SaddleFit {
  cv::Point2d px;
  double sigmaPx = 0;
  double blurPx = 0;
  double contrast = 0;   // black to white, grey levels
  double explained = 0;  // share of the window's variance that the model explains, 0..1
};

// Empty when the window leaves the picture or holds no such corner.
std::optional<SaddleFit> fitSaddle(const cv::Mat& grey, const SaddleGuess& guess);

}  // namespace rackside
