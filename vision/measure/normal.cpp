// SPDX-License-Identifier: GPL-3.0-or-later
// The normal equations of the adjustment, dense: a few dozen unknowns.
#include <Eigen/Cholesky>
#include <stdexcept>

#include "vision/measure/priors.h"
#include "vision/measure/residuals.h"
#include "vision/measure/solve.h"

namespace rackside::measure {

std::optional<CornerRows> cornerRows(const CornerResidual& residual, const CornerBlocks& at,
                                     const CornerColumns& columns) {
  const CornerCost cost(new CornerResidual(residual));
  const double* blocks[] = {at.lens, at.pose, at.place, at.own, at.shared};
  double r[2], byLens[2 * lensParts], byPose[2 * poseParts], byPlace[2 * placeParts],
      byOwn[2 * ownParts], byShared[2 * sharedParts];
  double* jacobians[] = {byLens, byPose, byPlace, byOwn, byShared};
  if (!cost.Evaluate(blocks, r, jacobians)) return std::nullopt;
  CornerRows rows;
  const auto take = [&](const double* derivative, const auto& column) {
    const size_t parts = column.size();
    for (size_t k = 0; k < parts; ++k) {
      if (column[k] < 0) continue;
      rows.column[rows.count] = column[k];
      for (size_t c = 0; c < 2; ++c) rows.value[c][rows.count] = derivative[c * parts + k];
      ++rows.count;
    }
  };
  take(byLens, columns.lens);
  take(byPose, columns.pose);
  take(byPlace, columns.place);
  take(byOwn, columns.own);
  take(byShared, columns.shared);
  for (int c = 0; c < 2; ++c)
    for (int k = 0; k < placeParts; ++k) rows.byPlace[c][k] = byPlace[c * placeParts + k];
  return rows;
}

Eigen::MatrixXd cornerNormal(const Scene& scene, const Unknowns& u, const Columns& columns,
                             double sigmaFactor) {
  Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(columns.count, columns.count);
  for (const Observation& o : scene.seen) {
    if (!o.used) continue;
    const int lens = scene.lensOf[o.photo];
    const auto rows =
        cornerRows(residualOf(scene, o, sigmaFactor),
                   {u.lenses[lens].data(), u.cameras[o.photo].data(), u.places[o.piece].data(),
                    u.owns[o.piece].data(), u.shared.data()},
                   {columns.lens[lens], columns.camera[o.photo], columns.place[o.piece],
                    columns.own[o.piece], columns.shared});
    if (!rows) continue;
    for (const auto& row : rows->value)
      for (int a = 0; a < rows->count; ++a)
        for (int b = 0; b < rows->count; ++b)
          normal(rows->column[a], rows->column[b]) += row[a] * row[b];
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
