// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/polygon.h"

#include <algorithm>
#include <limits>
#include <numbers>

namespace rackside {
namespace {

double distanceToSegment(Point a, Point b, Point q) {
  const Point along = b - a;
  const double squared = dot(along, along);
  const double t = squared > 0 ? std::clamp(dot(q - a, along) / squared, 0.0, 1.0) : 0.0;
  return norm(q - (a + t * along));
}

bool onSegment(Point a, Point b, Point q) {
  return q.x >= std::min(a.x, b.x) && q.x <= std::max(a.x, b.x) && q.y >= std::min(a.y, b.y) &&
         q.y <= std::max(a.y, b.y);
}

int side(Point a, Point b, Point q) {
  const double turn = cross(b - a, q - a);
  return turn > 0 ? 1 : (turn < 0 ? -1 : 0);
}

bool segmentsMeet(Point a, Point b, Point c, Point d) {
  const int c1 = side(a, b, c), d1 = side(a, b, d), a1 = side(c, d, a), b1 = side(c, d, b);
  if (c1 != d1 && a1 != b1) return true;
  return (c1 == 0 && onSegment(a, b, c)) || (d1 == 0 && onSegment(a, b, d)) ||
         (a1 == 0 && onSegment(c, d, a)) || (b1 == 0 && onSegment(c, d, b));
}

// Neighbours share a corner; they are at fault only when one runs back over the other.
bool foldsBack(Point a, Point corner, Point b) {
  return side(a, corner, b) == 0 && dot(a - corner, b - corner) > 0;
}

}  // namespace

double signedArea(const Polygon& p) {
  double twice = 0;
  for (size_t i = 0; i < p.size(); ++i)
    twice += cross(p[i] - p.front(), p[(i + 1) % p.size()] - p.front());
  return twice / 2;
}

double area(const Polygons& ps) {
  double sum = 0;
  for (const Polygon& p : ps) sum += signedArea(p);
  return sum;
}

Rect bounds(const Polygon& p) {
  if (p.empty()) return {};
  Rect r{p.front().x, p.front().y, p.front().x, p.front().y};
  for (const Point q : p) {
    r.x0 = std::min(r.x0, q.x);
    r.y0 = std::min(r.y0, q.y);
    r.x1 = std::max(r.x1, q.x);
    r.y1 = std::max(r.y1, q.y);
  }
  return r;
}

bool contains(const Polygon& p, Point q) {
  bool inside = false;
  for (size_t i = 0, j = p.size() - 1; i < p.size(); j = i++) {
    const Point a = p[j], b = p[i];
    if (side(a, b, q) == 0 && onSegment(a, b, q)) return true;
    if ((a.y > q.y) != (b.y > q.y) && q.x < a.x + (q.y - a.y) / (b.y - a.y) * (b.x - a.x))
      inside = !inside;
  }
  return inside;
}

double distanceToBorder(const Polygon& p, Point q) {
  double least = std::numeric_limits<double>::infinity();
  for (size_t i = 0; i < p.size(); ++i)
    least = std::min(least, distanceToSegment(p[i], p[(i + 1) % p.size()], q));
  return least;
}

Polygon rectangle(const Rect& r) {
  return {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}};
}

Polygon ellipsePolygon(const Ellipse& e, double toleranceMm) {
  const double greatest = std::max(e.semiX, e.semiY);
  const double ratio = std::clamp(1 - toleranceMm / std::max(greatest, toleranceMm), 0.0, 1.0);
  const int corners =
      std::max(16, static_cast<int>(std::ceil(std::numbers::pi / std::acos(ratio))));
  const Pose boardFromEllipse{e.centre, e.angleRad};
  Polygon p;
  for (int i = 0; i < corners; ++i) {
    const double t = 2 * std::numbers::pi * i / corners;
    p.push_back(apply(boardFromEllipse, {e.semiX * std::cos(t), e.semiY * std::sin(t)}));
  }
  return p;
}

Polygons sweep(const Polygons& ps, Point by) {
  Polygons passed;
  for (const Polygon& p : ps) {
    if (signedArea(p) <= 0) continue;
    Polygon moved = p;
    for (Point& q : moved) q = q + by;
    for (size_t i = 0; i < p.size(); ++i) {
      const size_t next = (i + 1) % p.size();
      Polygon flank{p[i], p[next], moved[next], moved[i]};
      if (signedArea(flank) < 0) std::reverse(flank.begin(), flank.end());
      passed.push_back(std::move(flank));
    }
    passed.push_back(p);
    passed.push_back(std::move(moved));
  }
  return unite(passed, {});
}

bool isSimple(const Polygon& p) {
  const size_t n = p.size();
  if (n < 3) return false;
  for (size_t i = 0; i < n; ++i) {
    const Point a = p[i], b = p[(i + 1) % n];
    if (a == b || foldsBack(a, b, p[(i + 2) % n])) return false;
    for (size_t j = i + 2; j < n; ++j) {
      if ((j + 1) % n == i) continue;
      const Point c = p[j], d = p[(j + 1) % n];
      if (std::max(a.x, b.x) < std::min(c.x, d.x) || std::max(c.x, d.x) < std::min(a.x, b.x))
        continue;
      if (segmentsMeet(a, b, c, d)) return false;
    }
  }
  return true;
}

Polygons keepLeftOf(const Polygons& ps, const Segment& line) {
  double reach = 1;
  for (const Polygon& p : ps)
    for (const Point q : p) reach = std::max(reach, norm(q - line.from) + 1);
  const double length = line.length();
  if (length <= 0) return ps;
  const Point along = (reach / length) * (line.to - line.from);
  const Point left{-along.y, along.x};
  const Polygon half{line.from - along, line.from + along, line.from + along + left,
                     line.from - along + left};
  return intersect(ps, {half});
}

}  // namespace rackside
