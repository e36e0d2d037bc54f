// SPDX-License-Identifier: GPL-3.0-or-later
// Inside the adjustment: the least-squares problem, its solution and its normal equations.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "vision/measure/unknowns.h"

namespace rackside::measure {

struct SolveOptions {
  bool robust = false;     // Cauchy loss on the corners, for a start that has outliers in it
  double sigmaFactor = 1;  // every corner's sigma times this
  int iterations = 60;
  double tolerance = 1e-10;  // relative change of the cost at which it stops
};

// Minimises from `u` on. Returns the cost (half the sum of squared whitened residuals); empty when
// the start is not possible (a point behind its camera).
std::optional<double> solve(const Scene& scene, Unknowns& u, const SolveOptions& options);

// Residual of each observation in px (seen minus predicted), used or not.
std::vector<cv::Point2d> residualsPx(const Scene& scene, const Unknowns& u);

// Which column of the normal equations belongs to which unknown; -1: held.
struct Columns {
  std::vector<std::array<int, lensParts>> lens;
  std::vector<std::array<int, poseParts>> camera;
  std::vector<std::array<int, placeParts>> place;
  std::vector<std::array<int, ownParts>> own;
  std::array<int, sharedParts> shared{};
  int count = 0;
};
Columns columnsOf(const Scene& scene);

// JᵀJ of the used corners, their sigma times sigmaFactor, without any prior.
Eigen::MatrixXd cornerNormal(const Scene& scene, const Unknowns& u, const Columns& columns,
                             double sigmaFactor);
// JᵀJ of the priors and the taped distances.
Eigen::MatrixXd priorNormal(const Scene& scene, const Unknowns& u, const Columns& columns);

// Inverse of a symmetric positive definite matrix whose rows differ in unit.
Eigen::MatrixXd inverseOf(const Eigen::MatrixXd& normal);

}  // namespace rackside::measure
