// SPDX-License-Identifier: GPL-3.0-or-later
// Inside the adjustment: the uncertainty of the face as smooth, independent displacement fields.
#pragma once

#include <vector>

#include "vision/measure/fit.h"

namespace rackside::measure {

// The normal equations split: what is known given the prints' scale, and what the scale moves.
struct Spread {
  Eigen::MatrixXd givenScale;  // covariance; the scale's own row is 0
  Eigen::VectorXd perScale;    // one standard deviation of the scale moves the unknowns by this
};
Spread spreadOf(const Fit& f);
Spread spreadOf(const Fit& f, const Eigen::MatrixXd& normal);

std::vector<PlaneMode> planeModes(const Fit& f, const Polygon& region, const Pose& boardFromPlane);

}  // namespace rackside::measure
