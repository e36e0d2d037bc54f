// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/priors.h"

#include <Eigen/Cholesky>
#include <stdexcept>

#include "vision/measure/solve.h"

namespace rackside::measure {
namespace {

template <size_t N>
BlockPrior independentPrior(const std::array<double, N>& mean, const std::array<double, N>& sigma) {
  BlockPrior prior;
  for (size_t i = 0; i < N; ++i)
    if (sigma[i] > 0) prior.parts.push_back(static_cast<int>(i));
  const auto n = static_cast<Eigen::Index>(prior.parts.size());
  prior.mean.resize(n);
  prior.information = Eigen::MatrixXd::Zero(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    prior.mean[i] = mean[prior.parts[i]];
    prior.information(i, i) = 1 / (sigma[prior.parts[i]] * sigma[prior.parts[i]]);
  }
  return prior;
}

}  // namespace

BlockPrior lensPrior(const Lens& lens) {
  const LensBlock mean{lens.focalPx, lens.cx, lens.cy, lens.k1, lens.k2};
  BlockPrior prior;
  for (int i = 0; i < lensParts; ++i)
    if (lens.covariance[i * lensParts + i] > 0) prior.parts.push_back(i);
  const auto n = static_cast<Eigen::Index>(prior.parts.size());
  prior.mean.resize(n);
  Eigen::MatrixXd covariance(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    prior.mean[i] = mean[prior.parts[i]];
    for (Eigen::Index j = 0; j < n; ++j)
      covariance(i, j) = lens.covariance[prior.parts[i] * lensParts + prior.parts[j]];
  }
  prior.information = inverseOf(covariance);
  return prior;
}

BlockPrior ownPrior(const Piece& piece) {
  const Target& t = piece.target;
  return independentPrior<ownParts>(
      {0, 0, t.thicknessMm.value_or(0)},
      {t.stretchSigmaX, t.stretchSigmaY, piece.thicknessIsOwn ? t.thicknessSigmaMm : 0});
}

BlockPrior sharedPrior(const Scene& scene) {
  return independentPrior<sharedParts>(scene.sharedPrior, scene.sharedSigma);
}

}  // namespace rackside::measure
