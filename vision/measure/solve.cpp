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

CornerResidual residualOf(const Scene& scene, const Observation& o, double sigmaFactor) {
  return {&scene.pieces[o.piece], &scene.bow, o.index, o.px, o.sigmaPx * sigmaFactor};
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

int pieceOfCard(const Scene& scene, int number) {
  for (size_t i = 0; i < scene.pieces.size(); ++i)
    if (scene.pieces[i].target.number == number) return static_cast<int>(i);
  throw std::logic_error("a taped distance names a card that is not in the scene");
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
  solver.function_tolerance = 1e-10;
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

Eigen::MatrixXd cornerNormal(const Scene& scene, const Unknowns& u, const Columns& columns,
                             double sigmaFactor) {
  Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(columns.count, columns.count);
  constexpr int width = lensParts + poseParts + placeParts + ownParts + sharedParts;
  for (const Observation& o : scene.seen) {
    if (!o.used) continue;
    const CornerCost cost(new CornerResidual(residualOf(scene, o, sigmaFactor)));
    const int lens = scene.lensOf[o.photo];
    const double* blocks[] = {u.lenses[lens].data(), u.cameras[o.photo].data(),
                              u.places[o.piece].data(), u.owns[o.piece].data(), u.shared.data()};
    double r[2];
    double jl[2 * lensParts], jc[2 * poseParts], jp[2 * placeParts], jo[2 * ownParts],
        js[2 * sharedParts];
    double* jacobians[] = {jl, jc, jp, jo, js};
    if (!cost.Evaluate(blocks, r, jacobians)) continue;
    int column[width];
    double row[2][width];
    int n = 0;
    const auto take = [&](const double* j, const auto& index) {
      const int parts = static_cast<int>(index.size());
      for (int k = 0; k < parts; ++k) {
        if (index[k] < 0) continue;
        column[n] = index[k];
        row[0][n] = j[k];
        row[1][n] = j[parts + k];
        ++n;
      }
    };
    take(jl, columns.lens[lens]);
    take(jc, columns.camera[o.photo]);
    take(jp, columns.place[o.piece]);
    take(jo, columns.own[o.piece]);
    take(js, columns.shared);
    for (int a = 0; a < n; ++a)
      for (int b = 0; b < n; ++b)
        normal(column[a], column[b]) += row[0][a] * row[0][b] + row[1][a] * row[1][b];
  }
  return normal;
}

namespace {

template <size_t N>
void addInformation(Eigen::MatrixXd& normal, const std::array<int, N>& column,
                    const BlockPrior& prior) {
  const size_t n = prior.parts.size();
  for (size_t i = 0; i < n; ++i)
    for (size_t j = 0; j < n; ++j)
      normal(column[prior.parts[i]], column[prior.parts[j]]) += prior.information(i, j);
}

void addTapedInformation(Eigen::MatrixXd& normal, const Scene& scene, const Unknowns& u,
                         const Columns& columns, const TapedDistance& t) {
  const int ends[] = {pieceOfCard(scene, t.cardA), pieceOfCard(scene, t.cardB)};
  const PlaceBlock& a = u.places[ends[0]];
  const PlaceBlock& b = u.places[ends[1]];
  const Point along{a[placeX] - b[placeX], a[placeY] - b[placeY]};
  const Point unit = (1 / norm(along)) * along;
  Eigen::VectorXd row = Eigen::VectorXd::Zero(columns.count);
  for (int e = 0; e < 2; ++e) {
    const double sign = e == 0 ? 1 : -1;
    const auto& column = columns.place[ends[e]];
    if (column[placeX] < 0) continue;
    row[column[placeX]] = sign * unit.x / t.sigmaMm;
    row[column[placeY]] = sign * unit.y / t.sigmaMm;
  }
  normal += row * row.transpose();
}

template <size_t N>
void number(std::array<int, N>& columns, const std::vector<int>& parts, int& count) {
  columns.fill(-1);
  for (const int part : parts) columns[part] = count++;
}

}  // namespace

Eigen::MatrixXd priorNormal(const Scene& scene, const Unknowns& u, const Columns& columns) {
  Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(columns.count, columns.count);
  for (size_t i = 0; i < columns.lens.size(); ++i)
    addInformation(normal, columns.lens[i], lensPrior(scene.lensPriors[i]));
  for (size_t i = 0; i < columns.own.size(); ++i)
    addInformation(normal, columns.own[i], ownPrior(scene.pieces[i]));
  addInformation(normal, columns.shared, sharedPrior(scene));
  for (const TapedDistance& t : scene.taped) addTapedInformation(normal, scene, u, columns, t);
  return normal;
}

Columns columnsOf(const Scene& scene) {
  Columns c;
  c.lens.resize(scene.lensPriors.size());
  c.camera.resize(scene.sizes.size());
  c.place.resize(scene.pieces.size());
  c.own.resize(scene.pieces.size());
  for (size_t i = 0; i < c.lens.size(); ++i)
    number(c.lens[i], lensPrior(scene.lensPriors[i]).parts, c.count);
  for (auto& camera : c.camera) number(camera, {0, 1, 2, 3, 4, 5}, c.count);
  for (size_t i = 0; i < c.place.size(); ++i)
    number(c.place[i],
           static_cast<int>(i) == scene.gauge ? std::vector<int>{} : std::vector<int>{0, 1, 2},
           c.count);
  for (size_t i = 0; i < c.own.size(); ++i)
    number(c.own[i], ownPrior(scene.pieces[i]).parts, c.count);
  number(c.shared, sharedPrior(scene).parts, c.count);
  return c;
}

Eigen::MatrixXd inverseOf(const Eigen::MatrixXd& normal) {
  if (normal.rows() == 0) return normal;
  const Eigen::VectorXd scale = normal.diagonal().cwiseSqrt().cwiseInverse();
  const Eigen::MatrixXd even = scale.asDiagonal() * normal * scale.asDiagonal();
  const Eigen::LLT<Eigen::MatrixXd> llt(even);
  if (llt.info() != Eigen::Success)
    throw std::logic_error("a covariance or normal matrix is not positive definite");
  const Eigen::MatrixXd inverse = llt.solve(Eigen::MatrixXd::Identity(even.rows(), even.cols()));
  return scale.asDiagonal() * inverse * scale.asDiagonal();
}

}  // namespace rackside::measure
