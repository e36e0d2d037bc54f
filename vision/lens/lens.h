// SPDX-License-Identifier: GPL-3.0-or-later
// A camera lens: pinhole with radial distortion, and what is known of it.
//
// Camera frame: x right, y down, z forward. A point (X, Y, Z) falls on
//   u = X/Z, v = Y/Z, r² = u² + v², d = 1 + k1 r² + k2 r⁴,  px = f d u + cx,  py = f d v + cy.
#pragma once

#include <array>
#include <opencv2/core.hpp>
#include <string>

namespace rackside {

struct Lens {
  double focalPx = 0;
  double cx = 0;
  double cy = 0;
  double k1 = 0;
  double k2 = 0;
  cv::Size size;  // of the raster that these pixels belong to
  // Covariance of (focalPx, cx, cy, k1, k2), row by row: of a calibration, or the spread of a
  // prior.
  std::array<double, 25> covariance{};
  std::string source;  // "calibrated: …", "EXIF focal length", "guess: no EXIF"
};

}  // namespace rackside
