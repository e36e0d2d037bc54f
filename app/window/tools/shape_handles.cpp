// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/tools/shape_handles.h"

#include <algorithm>

#include "core/geometry/polygon.h"

namespace rackside {

namespace {

constexpr double kLeastSemiMm = 0.5;

Point firstAxis(const Ellipse& e) {
  return {std::cos(e.angleRad), std::sin(e.angleRad)};
}
Point secondAxis(const Ellipse& e) {
  return {-std::sin(e.angleRad), std::cos(e.angleRad)};
}

double distanceTo(const Segment& s, Point p) {
  const Point d = s.to - s.from;
  const double square = dot(d, d);
  const double t = square > 0 ? std::clamp(dot(p - s.from, d) / square, 0.0, 1.0) : 0;
  return norm(p - (s.from + t * d));
}

std::vector<Point>* verticesOf(MarkShape& shape) {
  if (auto* polygon = std::get_if<Polygon>(&shape)) return polygon;
  if (auto* stroke = std::get_if<Stroke>(&shape)) return &stroke->points;
  return nullptr;
}

void thin(const std::vector<Point>& line, size_t first, size_t last, double tolerance,
          std::vector<bool>& keep) {
  size_t worst = first;
  double most = tolerance;
  for (size_t i = first + 1; i < last; ++i) {
    const double off = distanceTo({line[first], line[last]}, line[i]);
    if (off <= most) continue;
    most = off;
    worst = i;
  }
  if (worst == first) return;
  keep[worst] = true;
  thin(line, first, worst, tolerance, keep);
  thin(line, worst, last, tolerance, keep);
}

}  // namespace

std::vector<Point> handlesOf(const MarkShape& shape) {
  if (const auto* polygon = std::get_if<Polygon>(&shape)) return *polygon;
  if (const auto* stroke = std::get_if<Stroke>(&shape)) return stroke->points;
  const Ellipse& e = std::get<Ellipse>(shape);
  const Point a = e.semiX * firstAxis(e), b = e.semiY * secondAxis(e);
  return {e.centre + a, e.centre + b, e.centre - a, e.centre - b};
}

// The end of the first axis also turns the ellipse; the second only widens it.
MarkShape withHandleAt(MarkShape shape, size_t handle, Point to) {
  if (auto* vertices = verticesOf(shape)) {
    if (handle < vertices->size()) (*vertices)[handle] = to;
    return shape;
  }
  Ellipse& e = std::get<Ellipse>(shape);
  const Point arm = handle < 2 ? to - e.centre : e.centre - to;
  if (handle % 2 == 0) {
    e.semiX = std::max(norm(arm), kLeastSemiMm);
    if (norm(arm) > kLeastSemiMm) e.angleRad = std::atan2(arm.y, arm.x);
  } else {
    e.semiY = std::max(std::abs(dot(arm, secondAxis(e))), kLeastSemiMm);
  }
  return shape;
}

MarkShape movedBy(MarkShape shape, Point delta) {
  if (auto* vertices = verticesOf(shape)) {
    for (Point& p : *vertices) p = p + delta;
    return shape;
  }
  Ellipse& e = std::get<Ellipse>(shape);
  e.centre = e.centre + delta;
  return shape;
}

std::optional<std::pair<MarkShape, size_t>> withVertexNear(MarkShape shape, Point at,
                                                           double reachMm) {
  auto* vertices = verticesOf(shape);
  if (!vertices || vertices->size() < 2) return std::nullopt;
  const size_t sides =
      std::holds_alternative<Polygon>(shape) ? vertices->size() : vertices->size() - 1;
  std::optional<size_t> best;
  double bestMm = reachMm;
  for (size_t i = 0; i < sides; ++i) {
    const double off = distanceTo({(*vertices)[i], (*vertices)[(i + 1) % vertices->size()]}, at);
    if (off > bestMm) continue;
    bestMm = off;
    best = i + 1;
  }
  if (!best) return std::nullopt;
  vertices->insert(vertices->begin() + static_cast<std::ptrdiff_t>(*best), at);
  return std::pair(std::move(shape), *best);
}

std::optional<MarkShape> withoutHandle(MarkShape shape, size_t handle) {
  auto* vertices = verticesOf(shape);
  const size_t least = std::holds_alternative<Polygon>(shape) ? 3 : 2;
  if (!vertices || vertices->size() <= least || handle >= vertices->size()) return std::nullopt;
  vertices->erase(vertices->begin() + static_cast<std::ptrdiff_t>(handle));
  return shape;
}

Polygon turnedCounterClockwise(Polygon polygon) {
  if (signedArea(polygon) < 0) std::reverse(polygon.begin(), polygon.end());
  return polygon;
}

std::vector<Point> thinned(const std::vector<Point>& line, double toleranceMm) {
  if (line.size() < 3) return line;
  std::vector<bool> keep(line.size(), false);
  keep.front() = keep.back() = true;
  thin(line, 0, line.size() - 1, toleranceMm, keep);
  std::vector<Point> kept;
  for (size_t i = 0; i < line.size(); ++i)
    if (keep[i]) kept.push_back(line[i]);
  return kept;
}

}  // namespace rackside
