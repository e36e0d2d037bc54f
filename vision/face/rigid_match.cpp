// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/rigid_match.h"

#include <algorithm>
#include <vector>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

constexpr double kSampleMm = 12;
constexpr double kKept = 0.85;
constexpr int kRounds = 15;

std::vector<Point> sampled(const Polygon& p) {
  std::vector<Point> out;
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], d = p[(i + 1) % p.size()] - a;
    const int n = std::max(1, int(norm(d) / kSampleMm));
    for (int k = 0; k < n; ++k) out.push_back(a + (double(k) / n) * d);
  }
  return out;
}

struct Nearest {
  Point foot, normal;
  double distance = 0;
};

Nearest nearestOn(const Polygon& p, Point q) {
  Nearest best;
  best.distance = 1e18;
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], d = p[(i + 1) % p.size()] - a;
    const double l2 = dot(d, d);
    if (l2 <= 0) continue;
    const Point foot = a + std::clamp(dot(q - a, d) / l2, 0.0, 1.0) * d;
    const double distance = norm(q - foot);
    if (distance < best.distance) {
      const Point n = (1 / std::sqrt(l2)) * d;
      best = {foot, {n.y, -n.x}, distance};
    }
  }
  return best;
}

// One Gauss-Newton step of point-to-line distances in (dx, dy, angle), about the target's middle.
Pose improve(const Polygon& target, const std::vector<Point>& source, Point about, double& misfit) {
  std::vector<std::pair<Point, Nearest>> pairs;
  for (const Point& q : source) pairs.emplace_back(q, nearestOn(target, q));
  std::sort(pairs.begin(), pairs.end(),
            [](const auto& a, const auto& b) { return a.second.distance < b.second.distance; });
  pairs.resize(size_t(double(pairs.size()) * kKept));
  double m[3][3] = {}, v[3] = {}, sum = 0;
  for (const auto& [q, near] : pairs) {
    const Point arm = q - about;
    const double j[3] = {near.normal.x, near.normal.y,
                         near.normal.y * arm.x - near.normal.x * arm.y};
    const double r = dot(near.normal, near.foot - q);
    sum += near.distance * near.distance;
    for (int a = 0; a < 3; ++a) {
      v[a] += j[a] * r;
      for (int b = 0; b < 3; ++b) m[a][b] += j[a] * j[b];
    }
  }
  misfit = std::sqrt(sum / double(std::max<size_t>(1, pairs.size())));
  for (int a = 0; a < 3; ++a) {  // Gauss-Jordan on the three unknowns
    const double pivot = m[a][a] + 1e-9;
    for (int b = 0; b < 3; ++b) m[a][b] /= pivot;
    v[a] /= pivot;
    for (int c = 0; c < 3; ++c) {
      if (c == a) continue;
      const double f = m[c][a];
      for (int b = 0; b < 3; ++b) m[c][b] -= f * m[a][b];
      v[c] -= f * v[a];
    }
  }
  // Turn about `about`, then move.
  const double c = std::cos(v[2]), s = std::sin(v[2]);
  return {{about.x - c * about.x + s * about.y + v[0], about.y - s * about.x - c * about.y + v[1]},
          v[2]};
}

Pose compose(const Pose& outer, const Pose& inner) {
  return {rackside::apply(outer, inner.origin), outer.angleRad + inner.angleRad};
}

Point middle(const Rect& r) {
  return {(r.x0 + r.x1) / 2, (r.y0 + r.y1) / 2};
}

}  // namespace

RigidMatch matchOutlines(const Polygon& target, const Polygon& source) {
  RigidMatch match;
  const Point about = middle(bounds(target)), from = middle(bounds(source));
  match.targetFromSource = {about - from, 0};
  const std::vector<Point> points = sampled(source);
  for (int i = 0; i < kRounds; ++i) {
    std::vector<Point> moved;
    for (const Point& p : points) moved.push_back(rackside::apply(match.targetFromSource, p));
    match.targetFromSource =
        compose(improve(target, moved, about, match.misfitMm), match.targetFromSource);
  }
  return match;
}

}  // namespace rackside
