// SPDX-License-Identifier: GPL-3.0-or-later
// Inside the adjustment: the analytic map between one photograph and the face, and how the face's
// points move when the unknowns do.
#pragma once

#include <Eigen/Core>
#include <opencv2/core.hpp>
#include <optional>

#include "vision/measure/fit.h"

namespace rackside::measure {

cv::Point2d imageFromPlane(const Fit& f, size_t photo, Point planeMm, double zMm);
std::optional<Point> planeFromImage(const Fit& f, size_t photo, cv::Point2d px, double zMm);
cv::Point3d cameraCentre(const Fit& f, size_t photo);

// How the place read off the photograph at a face point moves, mm per unit of each column of the
// normal equations; 2 × columns.count. Empty where the photograph cannot see the point.
struct Drift {
  Eigen::Matrix<double, 2, Eigen::Dynamic> perColumn;
  double pxPerMm = 0;   // the least over directions
  double borderPx = 0;  // distance from the picture's border, negative outside
};
std::optional<Drift> driftOf(const Fit& f, size_t photo, Point planeMm);

// The same for the face picture made of all photographs: the mean, each weighted by how finely it
// shows the point and fading to nothing at its border.
Eigen::Matrix<double, 2, Eigen::Dynamic> driftOf(const Fit& f, Point planeMm);

}  // namespace rackside::measure
