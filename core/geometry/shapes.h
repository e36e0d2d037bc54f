// SPDX-License-Identifier: GPL-3.0-or-later
// Plane shapes in millimetres of the board frame: x along the board, y across, counter-clockwise
// outlines, angles in radians from +x towards +y.
#pragma once

#include <cmath>
#include <vector>

namespace rackside {

struct Point {
  double x = 0;
  double y = 0;
  bool operator==(const Point&) const = default;
};
inline Point operator+(Point a, Point b) {
  return {a.x + b.x, a.y + b.y};
}
inline Point operator-(Point a, Point b) {
  return {a.x - b.x, a.y - b.y};
}
inline Point operator*(double s, Point a) {
  return {s * a.x, s * a.y};
}
inline double dot(Point a, Point b) {
  return a.x * b.x + a.y * b.y;
}
// > 0 when b lies to the left of a.
inline double cross(Point a, Point b) {
  return a.x * b.y - a.y * b.x;
}
inline double norm(Point a) {
  return std::hypot(a.x, a.y);
}

// Closed, the last vertex joined to the first, no vertex repeated; counter-clockwise when it is
// solid.
using Polygon = std::vector<Point>;
using Polygons = std::vector<Polygon>;

struct Rect {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  double width() const { return x1 - x0; }
  double height() const { return y1 - y0; }
  bool operator==(const Rect&) const = default;
};

struct Segment {
  Point from;
  Point to;
  double length() const { return norm(to - from); }
  bool operator==(const Segment&) const = default;
};

struct Ellipse {
  Point centre;
  double semiX = 0;     // along its own first axis, mm
  double semiY = 0;     // along its own second axis, mm
  double angleRad = 0;  // of the first axis
  bool operator==(const Ellipse&) const = default;
};

// An open line with a width, such as a check: the wood within widthMm / 2 of it.
struct Stroke {
  std::vector<Point> points;
  double widthMm = 0;
  bool operator==(const Stroke&) const = default;
};

// A rigid motion of the plane: first turn by angleRad, then move by origin.
struct Pose {
  Point origin;
  double angleRad = 0;
  bool operator==(const Pose&) const = default;
};
Point apply(const Pose& outerFromInner, Point inner);
Polygon apply(const Pose& outerFromInner, const Polygon& inner);

}  // namespace rackside
