// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/straight_side.h"

#include <array>
#include <cmath>

namespace rackside {
namespace {

constexpr double kLeastShare = 2.0 / 3;
constexpr double kGreatestBendMm = 15;  // of a sawn side from its chord
constexpr double kBendCost = 0.02;      // of the points, a mm of bend
constexpr size_t kFewest = 12;

SideCurve through(const std::array<Point, 3>& p, SideCurve curve) {
  std::array<double, 3> u{};
  for (size_t i = 0; i < 3; ++i) u[i] = (p[i].x - curve.middle) / curve.half;
  const double d01 = (p[1].y - p[0].y) / (u[1] - u[0]), d12 = (p[2].y - p[1].y) / (u[2] - u[1]);
  curve.c = (d12 - d01) / (u[2] - u[0]);
  curve.b = d01 - curve.c * (u[0] + u[1]);
  curve.a = p[0].y - u[0] * (curve.b + u[0] * curve.c);
  return curve;
}

size_t followers(const std::vector<Point>& points, const SideCurve& curve, double nearMm) {
  size_t n = 0;
  for (const Point& p : points) n += std::abs(p.y - curve.at(p.x)) < nearMm;
  return n;
}

}  // namespace

std::optional<SideCurve> straightSide(const std::vector<Point>& points, double nearMm) {
  const size_t n = points.size();
  if (n < kFewest) return std::nullopt;
  SideCurve frame, best;
  frame.middle = (points.front().x + points.back().x) / 2;
  frame.half = std::max(1e-6, (points.back().x - points.front().x) / 2);
  size_t most = 0;
  double bestScore = -1e9;
  // Every choice of one point from each third, ten to a third.
  for (size_t i = 0; i < 10; ++i)
    for (size_t j = 0; j < 10; ++j)
      for (size_t k = 0; k < 10; ++k) {
        const SideCurve curve = through(
            {points[n * i / 30], points[n * (10 + j) / 30], points[n * (20 + k) / 30]}, frame);
        if (std::abs(curve.c) > kGreatestBendMm) continue;
        const size_t near = followers(points, curve, nearMm);
        const double score = double(near) - kBendCost * double(n) * std::abs(curve.c);
        if (score > bestScore) bestScore = score, most = near, best = curve;
      }
  if (double(most) < kLeastShare * double(n)) return std::nullopt;
  return best;
}

}  // namespace rackside
