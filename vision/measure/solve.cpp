// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/solve.h"

#include <ceres/ceres.h>

#include <stdexcept>

#include "vision/measure/priors.h"
#include "vision/measure/residuals.h"

namespace rackside::measure {
namespace {

// Whitened corner residuals beyond about this many sigma lose weight in the robust stage.
constexpr double kCauchyScale = 3;

void holdAllBut(ceres::Problem& problem, double* block, int size, const std::vector<int>& free) {
  if (!problem.HasParameterBlock(block)) return;
  std::vector<int> held;
  for (int i = 0; i < size; ++i)
    if (std::find(free.begin(), free.end(), i) == free.end()) held.push_back(i);
  if (static_cast<int>(held.size()) == size)
    problem.SetParameterBlockConstant(block);
  else if (!held.empty())
    problem.SetManifold(block, new ceres::SubsetManifold(size, held));
}

void addPrior(ceres::Problem& problem, double* block, int size, const BlockPrior& prior) {
  holdAllBut(problem, block, size, prior.parts);
  if (prior.parts.empty()) return;
  const Eigen::LLT<Eigen::MatrixXd> llt(prior.information);
  const Eigen::MatrixXd whitening = llt.matrixU();
  PriorResidual residual{prior.parts, {}, {}};
  for (Eigen::Index i = 0; i < whitening.rows(); ++i) {
    residual.mean.push_back(prior.mean[i]);
    for (Eigen::Index j = 0; j < whitening.cols(); ++j)
      residual.whitening.push_back(whitening(i, j));
  }
  auto* cost = new ceres::DynamicAutoDiffCostFunction<PriorResidual, 8>(
      new PriorResidual(std::move(residual)));
  cost->AddParameterBlock(size);
  cost->SetNumResiduals(static_cast<int>(prior.parts.size()));
  problem.AddResidualBlock(cost, nullptr, block);
}

void addCorners(ceres::Problem& problem, const Scene& scene, Unknowns& u,
                const SolveOptions& options) {
  for (const Observation& o : scene.seen) {
    if (!o.used) continue;
    ceres::LossFunction* loss = options.robust ? new ceres::CauchyLoss(kCauchyScale) : nullptr;
    problem.AddResidualBlock(
        new CornerCost(new CornerResidual(residualOf(scene, o, options.sigmaFactor))), loss,
        u.lenses[scene.lensOf[o.photo]].data(), u.cameras[o.photo].data(), u.places[o.piece].data(),
        u.owns[o.piece].data(), u.shared.data());
  }
}

void addKnown(ceres::Problem& problem, const Scene& scene, Unknowns& u) {
  for (const TapedDistance& t : scene.taped)
    problem.AddResidualBlock(new TapedCost(new TapedResidual{t.mm, t.sigmaMm}), nullptr,
                             u.places[pieceOfCard(scene, t.cardA)].data(),
                             u.places[pieceOfCard(scene, t.cardB)].data());
  for (size_t i = 0; i < u.lenses.size(); ++i)
    addPrior(problem, u.lenses[i].data(), lensParts, lensPrior(scene.lensPriors[i]));
  for (size_t i = 0; i < u.owns.size(); ++i)
    addPrior(problem, u.owns[i].data(), ownParts, ownPrior(scene.pieces[i]));
  addPrior(problem, u.shared.data(), sharedParts, sharedPrior(scene));
  holdAllBut(problem, u.places[scene.gauge].data(), placeParts, {});
}

}  // namespace

std::optional<double> solve(const Scene& scene, Unknowns& u, const SolveOptions& options) {
  ceres::Problem problem;
  addCorners(problem, scene, u, options);
  addKnown(problem, scene, u);
  ceres::Solver::Options solver;
  solver.linear_solver_type = ceres::DENSE_QR;
  solver.max_num_iterations = options.iterations;
  solver.function_tolerance = options.tolerance;
  solver.logging_type = ceres::SILENT;
  ceres::Solver::Summary summary;
  ceres::Solve(solver, &problem, &summary);
  if (!summary.IsSolutionUsable()) return std::nullopt;
  return summary.final_cost;
}

std::vector<cv::Point2d> residualsPx(const Scene& scene, const Unknowns& u) {
  std::vector<cv::Point2d> residuals;
  for (const Observation& o : scene.seen) {
    CornerResidual residual = residualOf(scene, o, 1);
    residual.sigmaPx = 1;
    double r[2] = {1e9, 1e9};  // a point behind its camera is as wrong as can be
    residual(u.lenses[scene.lensOf[o.photo]].data(), u.cameras[o.photo].data(),
             u.places[o.piece].data(), u.owns[o.piece].data(), u.shared.data(), r);
    residuals.emplace_back(r[0], r[1]);
  }
  return residuals;
}

}  // namespace rackside::measure
