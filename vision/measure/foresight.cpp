// SPDX-License-Identifier: GPL-3.0-or-later
// What the uncertainty is, and what it would be if something were added.
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "vision/measure/advice.h"
#include "vision/measure/plane_modes.h"
#include "vision/measure/plane_view.h"
#include "vision/measure/residuals.h"

namespace rackside::measure {
namespace {

constexpr double k95 = 1.96;

// How the distance between two face points, as read, moves with the unknowns.
Eigen::RowVectorXd distanceDrift(const Fit& f, Point from, Point to) {
  const Point d = (1 / norm(to - from)) * (to - from);
  return Eigen::RowVector2d(d.x, d.y) * (driftOf(f, to) - driftOf(f, from));
}

// Points of the standard card foretold: the best known printed card of the scene, or its like.
Piece modelCard(const Fit& f) {
  const Piece* best = nullptr;
  for (const Piece& p : f.scene.pieces)
    if (p.target.printed && (!best || p.points.size() > best->points.size())) best = &p;
  if (best) return *best;
  Piece card;
  for (int i = -4; i <= 4; ++i)
    for (int j = -1; j <= 1; ++j) card.points.push_back({25.0 * i, 20.0 * j});
  return card;
}

double medianSigmaPx(const Fit& f) {
  std::vector<double> sigma;
  for (const Observation& o : f.scene.seen) sigma.push_back(o.sigmaPx);
  const auto middle = sigma.begin() + sigma.size() / 2;
  std::nth_element(sigma.begin(), middle, sigma.end());
  return *middle * f.sigmaFactor;
}

size_t photoThatSees(const Fit& f, Point p) {
  size_t best = 0;
  double bestBorder = -1e18;
  for (size_t photo = 0; photo < f.scene.sizes.size(); ++photo) {
    const auto drift = driftOf(f, photo, p);
    if (!drift || drift->borderPx <= bestBorder) continue;
    best = photo;
    bestBorder = drift->borderPx;
  }
  return best;
}

}  // namespace

Foreseen foreseen(const Fit& f, const Eigen::MatrixXd& normal, const Polygon& region,
                  const Pose& boardFromPlane) {
  const Rect box = bounds(apply(boardFromPlane, region));
  const Pose turnBack{{0, 0}, -boardFromPlane.angleRad};
  const auto plane = [&](double x, double y) {
    return apply(turnBack, Point{x, y} - boardFromPlane.origin);
  };
  const double middle = (box.y0 + box.y1) / 2;
  const Spread spread = spreadOf(f, normal);
  const auto u95 = [&](const Eigen::RowVectorXd& g) {
    return k95 * std::sqrt(std::max(0.0, (g * spread.givenScale * g.transpose()).value()));
  };
  Foreseen result;
  const auto length = distanceDrift(f, plane(box.x0, middle), plane(box.x1, middle));
  result.length = u95(length);
  result.lengthTotal = std::hypot(result.length, k95 * (length * spread.perScale).value());
  for (const double t : {0.03, 0.5, 0.97}) {
    const double x = box.x0 + t * box.width();
    result.width =
        std::max(result.width, u95(distanceDrift(f, plane(x, box.y0), plane(x, box.y1))));
  }
  return result;
}

Eigen::MatrixXd withCardAt(const Fit& f, const Eigen::MatrixXd& normal, Point planeMm,
                           double turnRad) {
  const Piece card = modelCard(f);
  const size_t photo = photoThatSees(f, planeMm);
  const int lens = f.scene.lensOf[photo];
  const PlaceBlock place{planeMm.x, planeMm.y, turnRad};
  const OwnBlock own{};
  const double sigmaPx = medianSigmaPx(f);
  const int n = f.columns.count;
  const CornerBlocks at{f.at.lenses[lens].data(), f.at.cameras[photo].data(), place.data(),
                        own.data(), f.at.shared.data()};
  const CornerColumns columns{
      f.columns.lens[lens], f.columns.camera[photo], {-1, -1, -1}, {-1, -1, -1}, f.columns.shared};
  // Its own place is new: eliminated at once, so that the unknowns stay as they are.
  Eigen::MatrixXd known = Eigen::MatrixXd::Zero(n, n), cross = Eigen::MatrixXd::Zero(n, placeParts);
  Eigen::Matrix3d inner = Eigen::Matrix3d::Zero();
  for (int i = 0; i < static_cast<int>(card.points.size()); ++i) {
    const auto rows = cornerRows({&card, &f.scene.bow, i, {0, 0}, sigmaPx}, at, columns);
    if (!rows) continue;
    for (int c = 0; c < 2; ++c) {
      Eigen::VectorXd row = Eigen::VectorXd::Zero(n);
      for (int k = 0; k < rows->count; ++k) row[rows->column[k]] = rows->value[c][k];
      const Eigen::Map<const Eigen::RowVector3d> byPlace(rows->byPlace[c]);
      known += row * row.transpose();
      cross += row * byPlace;
      inner += byPlace.transpose() * byPlace;
    }
  }
  return normal + known - cross * inner.inverse() * cross.transpose();
}

Eigen::MatrixXd withCalibratedLens(const Fit& f) {
  // What a calibration from a dozen photographs typically leaves: 0.2 % of the focal length, 4 px,
  // 0.001 (own simulation).
  Eigen::MatrixXd normal = f.normal;
  for (size_t i = 0; i < f.columns.lens.size(); ++i) {
    const LensBlock sigma{0.002 * f.at.lenses[i][focal], 4, 4, 0.001, 0.002};
    for (int part = 0; part < lensParts; ++part)
      if (const int c = f.columns.lens[i][part]; c >= 0)
        normal(c, c) += 1 / (sigma[part] * sigma[part]);
  }
  return normal;
}

double longerIfBowed(const Fit& f, const Polygon& region, const Pose& boardFromPlane,
                     double endsMm) {
  const Rect box = bounds(apply(boardFromPlane, region));
  const Pose turnBack{{0, 0}, -boardFromPlane.angleRad};
  const double middle = (box.y0 + box.y1) / 2;
  Point ends[2];
  for (int e = 0; e < 2; ++e)
    ends[e] = apply(turnBack, Point{e == 0 ? box.x0 : box.x1, middle} - boardFromPlane.origin);
  const Point span = ends[1] - ends[0];
  Fit bowed = f;
  bowed.scene.bow = BowLine{0.5 * (ends[0] + ends[1]), (1 / norm(span)) * span, norm(span) / 2};
  bowed.scene.sharedPrior[bowEnds] = bowed.at.shared[bowEnds] = endsMm;
  bowed.scene.sharedSigma[bowEnds] = 0;
  if (!solve(bowed.scene, bowed.at, {false, f.sigmaFactor, 60, 1e-8})) return 0;
  Point moved[2];
  for (int e = 0; e < 2; ++e) {
    const size_t photo = photoThatSees(f, ends[e]);
    const auto p = planeFromImage(bowed, photo, imageFromPlane(f, photo, ends[e], 0), 0);
    if (!p) return 0;
    moved[e] = *p;
  }
  return norm(moved[1] - moved[0]) - norm(span);
}

}  // namespace rackside::measure
