// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/checker_geometry.h"

#include <algorithm>
#include <cmath>

namespace rackside::checking {
namespace {

Point direction(Point from, Point to) {
  const Point d = to - from;
  const double length = norm(d);
  return length > 0 ? (1 / length) * d : Point{1, 0};
}

bool segmentsCross(Point a, Point b, Point c, Point d) {
  const double abc = cross(b - a, c - a), abd = cross(b - a, d - a);
  const double cda = cross(d - c, a - c), cdb = cross(d - c, b - c);
  return ((abc > 0) != (abd > 0)) && ((cda > 0) != (cdb > 0));
}

}  // namespace

double areaOf(const Polygon& p) {
  double twice = 0;
  for (size_t i = 0; i < p.size(); ++i) twice += cross(p[i], p[(i + 1) % p.size()]);
  return std::abs(twice) / 2;
}

bool isInside(const Polygon& p, Point q) {
  bool in = false;
  for (size_t i = 0, j = p.size() - 1; i < p.size(); j = i++)
    if ((p[i].y > q.y) != (p[j].y > q.y) &&
        q.x < (p[j].x - p[i].x) * (q.y - p[i].y) / (p[j].y - p[i].y) + p[i].x)
      in = !in;
  return in;
}

double distanceToSegment(Point q, Point a, Point b) {
  const Point d = b - a;
  const double lengthSquared = dot(d, d);
  const double t = lengthSquared > 0 ? std::clamp(dot(q - a, d) / lengthSquared, 0.0, 1.0) : 0;
  return norm(q - (a + t * d));
}

double distanceOfSegments(Point a, Point b, Point c, Point d) {
  if (segmentsCross(a, b, c, d)) return 0;
  return std::min(std::min(distanceToSegment(a, c, d), distanceToSegment(b, c, d)),
                  std::min(distanceToSegment(c, a, b), distanceToSegment(d, a, b)));
}

double distanceOf(const Polygon& a, const Polygon& b) {
  if (a.empty() || b.empty()) return 1e300;
  if (isInside(a, b[0]) || isInside(b, a[0])) return 0;
  double least = 1e300;
  for (size_t i = 0; i < a.size(); ++i)
    for (size_t j = 0; j < b.size(); ++j)
      least = std::min(
          least, distanceOfSegments(a[i], a[(i + 1) % a.size()], b[j], b[(j + 1) % b.size()]));
  return least;
}

double distanceOfLine(const std::vector<Point>& line, const Polygon& p) {
  if (line.empty() || p.empty()) return 1e300;
  if (isInside(p, line[0])) return 0;
  double least = 1e300;
  for (size_t i = 0; i + 1 < line.size(); ++i)
    for (size_t j = 0; j < p.size(); ++j)
      least =
          std::min(least, distanceOfSegments(line[i], line[i + 1], p[j], p[(j + 1) % p.size()]));
  return least;
}

Polygon leftOf(const Polygon& p, Point from, Point to) {
  const Point d = direction(from, to);
  Polygon kept;
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    const double sideA = cross(d, a - from), sideB = cross(d, b - from);
    if (sideA >= 0) kept.push_back(a);
    if ((sideA > 0 && sideB < 0) || (sideA < 0 && sideB > 0))
      kept.push_back(a + (sideA / (sideA - sideB)) * (b - a));
  }
  return kept;
}

Reach reachAlong(const Polygon& p, Point from, Point to) {
  const Point d = direction(from, to);
  Reach reach;
  const auto take = [&](Point q) {
    const double t = dot(q - from, d);
    reach.lo = std::min(reach.lo, t);
    reach.hi = std::max(reach.hi, t);
  };
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    const double sideA = cross(d, a - from), sideB = cross(d, b - from);
    if (sideA == 0) take(a);
    if ((sideA > 0 && sideB < 0) || (sideA < 0 && sideB > 0))
      take(a + (sideA / (sideA - sideB)) * (b - a));
  }
  return reach;
}

double overlapArea(const Polygon& convexA, const Polygon& convexB) {
  Polygon rest = convexA;
  for (size_t i = 0; i < convexB.size() && !rest.empty(); ++i)
    rest = leftOf(rest, convexB[i], convexB[(i + 1) % convexB.size()]);
  return areaOf(rest);
}

Polygon sweptAlongX(const Polygon& convex, double reachMm) {
  Polygon points;
  for (const Point q : convex)
    for (const double by : {-reachMm, reachMm}) points.push_back({q.x + by, q.y});
  std::sort(points.begin(), points.end(),
            [](Point a, Point b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  Polygon hull;  // the monotone chain
  for (int pass = 0; pass < 2; ++pass) {
    const size_t start = hull.size();
    for (const Point q : points) {
      while (hull.size() >= start + 2 &&
             cross(hull.back() - hull[hull.size() - 2], q - hull.back()) <= 0)
        hull.pop_back();
      hull.push_back(q);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

Box boxOf(const Polygon& p) {
  Box box;
  for (const Point q : p)
    box = {std::min(box.x0, q.x), std::min(box.y0, q.y), std::max(box.x1, q.x),
           std::max(box.y1, q.y)};
  return box;
}

Polygon turnedBack(const Polygon& p, double angleRad) {
  const double s = std::sin(angleRad), c = std::cos(angleRad);
  Polygon out;
  for (const Point q : p) out.push_back({q.x * c + q.y * s, -q.x * s + q.y * c});
  return out;
}

Box inBlank(const Blank& blank, const Piece& piece) {
  Polygon p;
  for (const Point q : piece.outline) p.push_back(q - blank.boardFromBlank.origin);
  return boxOf(turnedBack(p, blank.boardFromBlank.angleRad));
}

}  // namespace rackside::checking
