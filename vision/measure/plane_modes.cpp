// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/plane_modes.h"

#include <Eigen/Eigenvalues>
#include <Eigen/QR>
#include <Eigen/SVD>
#include <cmath>

#include "vision/measure/plane_view.h"

namespace rackside::measure {
namespace {

// Modes below this share of the whole variance are dropped. Small, because the width's share is:
// its sigma is a tenth of the length's.
constexpr double kLeastShare = 1e-7;
constexpr int kAlong = 15, kAcross = 5;
constexpr int kMonomials = 10;

Pose inverse(const Pose& p) {
  const Pose turn{{0, 0}, -p.angleRad};
  return {-1 * apply(turn, p.origin), -p.angleRad};
}

std::vector<Point> gridOver(const Rect& box) {
  std::vector<Point> grid;
  for (int i = 0; i < kAlong; ++i)
    for (int j = 0; j < kAcross; ++j)
      grid.push_back(
          {box.x0 + box.width() * i / (kAlong - 1), box.y0 + box.height() * j / (kAcross - 1)});
  return grid;
}

// Displacements stacked: x of all points, then y of all points; board frame.
Eigen::MatrixXd driftOfGrid(const Fit& f, const std::vector<Point>& grid,
                            const Pose& boardFromPlane) {
  const auto n = static_cast<Eigen::Index>(grid.size());
  const Pose planeFromBoard = inverse(boardFromPlane);
  const double c = std::cos(boardFromPlane.angleRad), s = std::sin(boardFromPlane.angleRad);
  Eigen::MatrixXd all(2 * n, f.columns.count);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto drift = driftOf(f, apply(planeFromBoard, grid[i]));
    all.row(i) = c * drift.row(0) - s * drift.row(1);
    all.row(n + i) = s * drift.row(0) + c * drift.row(1);
  }
  return all;
}

void takeOutRigidMotions(Eigen::MatrixXd& fields, const std::vector<Point>& grid) {
  const auto n = static_cast<Eigen::Index>(grid.size());
  Eigen::MatrixXd rigid = Eigen::MatrixXd::Zero(2 * n, 3);
  for (Eigen::Index i = 0; i < n; ++i) {
    rigid(i, 0) = 1;
    rigid(n + i, 1) = 1;
    rigid(i, 2) = -grid[i].y;
    rigid(n + i, 2) = grid[i].x;
  }
  const Eigen::MatrixXd basis = Eigen::HouseholderQR<Eigen::MatrixXd>(rigid).householderQ() *
                                Eigen::MatrixXd::Identity(2 * n, 3);
  fields -= basis * (basis.transpose() * fields);
}

// Monomials 1, u, v, u², uv, v², u³, u²v, uv², v³ of metres, as PlaneMode has them.
Eigen::MatrixXd monomialsOf(const std::vector<Point>& grid) {
  Eigen::MatrixXd m(grid.size(), kMonomials);
  for (size_t i = 0; i < grid.size(); ++i) {
    const double u = grid[i].x / 1000, v = grid[i].y / 1000;
    m.row(static_cast<Eigen::Index>(i)) << 1, u, v, u * u, u * v, v * v, u * u * u, u * u * v,
        u * v * v, v * v * v;
  }
  return m;
}

// The cubic that fits each column of `fields` best.
std::vector<PlaneMode> cubicsOf(const Eigen::MatrixXd& fields, const std::vector<Point>& grid,
                                PlaneMode::Cause cause) {
  const auto n = static_cast<Eigen::Index>(grid.size());
  Eigen::MatrixXd monomials = monomialsOf(grid);
  const Eigen::VectorXd size = monomials.colwise().norm();
  for (int k = 0; k < kMonomials; ++k) monomials.col(k) /= size[k];
  const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(monomials);
  std::vector<PlaneMode> modes;
  for (Eigen::Index j = 0; j < fields.cols(); ++j) {
    const Eigen::VectorXd x = qr.solve(fields.col(j).head(n));
    const Eigen::VectorXd y = qr.solve(fields.col(j).tail(n));
    PlaneMode mode;
    mode.cause = cause;
    for (int k = 0; k < kMonomials; ++k) {
      mode.dx[k] = x[k] / size[k];
      mode.dy[k] = y[k] / size[k];
    }
    modes.push_back(mode);
  }
  return modes;
}

// Independent fields whose outer products sum to `fields · fieldsᵀ`, largest first.
Eigen::MatrixXd principal(const Eigen::MatrixXd& fields) {
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(fields, Eigen::ComputeThinU);
  const Eigen::VectorXd& sigma = svd.singularValues();
  const double whole = sigma.squaredNorm();
  Eigen::Index kept = 0;
  while (kept < sigma.size() && sigma[kept] * sigma[kept] > kLeastShare * whole) ++kept;
  return svd.matrixU().leftCols(kept) * sigma.head(kept).asDiagonal();
}

// A with A·Aᵀ = covariance, which may have rows of 0.
Eigen::MatrixXd rootOf(const Eigen::MatrixXd& covariance) {
  Eigen::VectorXd scale = covariance.diagonal().cwiseSqrt();
  for (double& s : scale)
    if (s == 0) s = 1;
  const Eigen::VectorXd back = scale.cwiseInverse();
  const Eigen::MatrixXd even = back.asDiagonal() * covariance * back.asDiagonal();
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(even);
  return scale.asDiagonal() * eigen.eigenvectors() *
         eigen.eigenvalues().cwiseMax(0).cwiseSqrt().asDiagonal();
}

// The part of each field that a cubic can follow.
Eigen::MatrixXd cubicPart(const Eigen::MatrixXd& fields, const std::vector<Point>& grid) {
  const auto n = static_cast<Eigen::Index>(grid.size());
  Eigen::MatrixXd monomials = monomialsOf(grid);
  monomials.colwise().normalize();
  const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(monomials);
  const Eigen::MatrixXd basis = qr.householderQ() * Eigen::MatrixXd::Identity(n, qr.rank());
  Eigen::MatrixXd part(fields.rows(), fields.cols());
  part.topRows(n) = basis * (basis.transpose() * fields.topRows(n));
  part.bottomRows(n) = basis * (basis.transpose() * fields.bottomRows(n));
  return part;
}

// Non-negative weights w that bring share · w nearest to `target`, itself not negative
// (multiplicative updates of Lee and Seung, 2001).
Eigen::VectorXd nonNegativeFit(const Eigen::MatrixXd& share, const Eigen::VectorXd& target) {
  Eigen::VectorXd w = Eigen::VectorXd::Constant(share.cols(), target.mean() + 1e-12);
  for (int round = 0; round < 300; ++round) {
    const Eigen::VectorXd up = share.transpose() * target;
    const Eigen::VectorXd down = share.transpose() * (share * w);
    w = w.cwiseProduct(up).cwiseQuotient((down.array() + 1e-15).matrix());
  }
  return w;
}

// Where several photographs meet, the true field bends more sharply than a cubic can, and the cubic
// would state too small a spread. What it lacks in the width at each place along the board, and in
// the whole length, comes back as stretches of their own: across the board, strongest at the left,
// the middle or the right, and along it.
Eigen::MatrixXd stretchesFor(const Eigen::MatrixXd& fields, const Eigen::MatrixXd& cubic,
                             const std::vector<Point>& grid) {
  const auto n = static_cast<Eigen::Index>(grid.size());
  constexpr Eigen::Index top = kAcross - 1, middle = kAcross / 2, bumps = 3;
  const auto lacking = [](const Eigen::RowVectorXd& whole, const Eigen::RowVectorXd& part) {
    // A sigma within 3 % is followed well enough, and nothing is added.
    constexpr double near = 0.97 * 0.97;
    const double lack = whole.squaredNorm() - part.squaredNorm();
    return part.squaredNorm() < near * whole.squaredNorm() ? lack : 0.0;
  };
  const Point first = grid.front(), last = grid.back();
  const auto along = [&](Point p) { return (p.x - first.x) / (last.x - first.x); };
  const auto bump = [](Eigen::Index k, double t) {
    return k == 0 ? (1 - t) * (1 - t) : k == 1 ? 2 * t * (1 - t) : t * t;
  };
  Eigen::MatrixXd share(kAlong, bumps);
  Eigen::VectorXd width(kAlong);
  for (Eigen::Index i = 0; i < kAlong; ++i) {
    const Eigen::Index low = n + i * kAcross, high = low + top;
    width[i] = lacking(fields.row(high) - fields.row(low), cubic.row(high) - cubic.row(low));
    for (Eigen::Index k = 0; k < bumps; ++k)
      share(i, k) = std::pow(bump(k, along(grid[i * kAcross])), 2);
  }
  const Eigen::Index left = middle, right = (kAlong - 1) * kAcross + middle;
  const double length =
      lacking(fields.row(right) - fields.row(left), cubic.row(right) - cubic.row(left));
  const Eigen::VectorXd weight = nonNegativeFit(share, width);
  Eigen::MatrixXd stretches = Eigen::MatrixXd::Zero(2 * n, bumps + 1);
  for (Eigen::Index i = 0; i < n; ++i) {
    const double across = (grid[i].y - first.y) / (last.y - first.y) - 0.5;
    for (Eigen::Index k = 0; k < bumps; ++k)
      stretches(n + i, k) = std::sqrt(weight[k]) * bump(k, along(grid[i])) * across;
    stretches(i, bumps) = std::sqrt(length) * (along(grid[i]) - 0.5);
  }
  return stretches;
}

}  // namespace

Spread spreadOf(const Fit& f) {
  return spreadOf(f, f.normal);
}

Spread spreadOf(const Fit& f, const Eigen::MatrixXd& normal) {
  const Eigen::MatrixXd covariance = inverseOf(normal);
  const int scale = f.columns.shared[cardScale];
  Spread spread{covariance, Eigen::VectorXd::Zero(covariance.rows())};
  if (scale < 0) return spread;
  const double sigma = std::sqrt(covariance(scale, scale));
  spread.perScale = covariance.col(scale) / sigma;
  spread.givenScale -= spread.perScale * spread.perScale.transpose();
  spread.givenScale.row(scale).setZero();
  spread.givenScale.col(scale).setZero();
  return spread;
}

std::vector<PlaneMode> planeModes(const Fit& f, const Polygon& region, const Pose& boardFromPlane) {
  const std::vector<Point> grid = gridOver(bounds(apply(boardFromPlane, region)));
  const Eigen::MatrixXd drift = driftOfGrid(f, grid, boardFromPlane);
  const Spread spread = spreadOf(f);
  Eigen::MatrixXd fields = drift * rootOf(spread.givenScale);
  takeOutRigidMotions(fields, grid);
  const Eigen::MatrixXd cubic = cubicPart(fields, grid);
  const Eigen::MatrixXd stretches = stretchesFor(fields, cubic, grid);
  Eigen::MatrixXd all(fields.rows(), fields.cols() + stretches.cols());
  all << cubic, stretches;
  std::vector<PlaneMode> modes = cubicsOf(principal(all), grid, PlaneMode::Cause::adjustment);
  Eigen::MatrixXd byScale = drift * spread.perScale;
  takeOutRigidMotions(byScale, grid);
  if (byScale.norm() > 0)
    for (const PlaneMode& m : cubicsOf(byScale, grid, PlaneMode::Cause::cardScale))
      modes.push_back(m);
  return modes;
}

}  // namespace rackside::measure
