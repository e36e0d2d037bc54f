// SPDX-License-Identifier: GPL-3.0-or-later
// Inside the adjustment: from a scene to its best values and their normal equations.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "core/base/result.h"
#include "vision/measure/solve.h"
#include "vision/measure/unknowns.h"

namespace rackside::measure {

struct Fit {
  Scene scene;  // its observations marked used or set aside
  Unknowns at;
  Columns columns;
  Eigen::MatrixXd normal;  // corners (their sigma times sigmaFactor) and priors
  double sigmaFactor = 1;  // the corners' true sigma ÷ the sigma they came with
  std::vector<cv::Point2d> residualsPx;
};

Result<Fit> fit(Scene scene);

}  // namespace rackside::measure
