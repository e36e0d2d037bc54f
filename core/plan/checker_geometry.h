// SPDX-License-Identifier: GPL-3.0-or-later
// The checker's own plane geometry: distances and half planes, nothing gridded, nothing offset, so
// that it cannot repeat a mistake of the planner's.
#pragma once

#include "core/geometry/shapes.h"
#include "core/plan/plan.h"

namespace rackside::checking {

double areaOf(const Polygon& p);  // mm², whichever way round
bool isInside(const Polygon& p, Point q);
double distanceToSegment(Point q, Point a, Point b);
double distanceOfSegments(Point a, Point b, Point c, Point d);
// 0 when they touch or one holds the other.
double distanceOf(const Polygon& a, const Polygon& b);
// Least distance of an open line from a polygon; 0 when it touches or lies inside.
double distanceOfLine(const std::vector<Point>& line, const Polygon& p);
// The part of `p` that lies to the left of from→to. A region that falls apart keeps a seam of no
// width, which changes no area.
Polygon leftOf(const Polygon& p, Point from, Point to);
// Where the endless line through from→to meets the border of `p`: least and greatest distance from
// `from` along it. lo > hi when it does not.
struct Reach {
  double lo = 1e300, hi = -1e300;
};
Reach reachAlong(const Polygon& p, Point from, Point to);
double overlapArea(const Polygon& convexA, const Polygon& convexB);
// The convex polygon that p covers while it moves by ±reachMm along x (p convex).
Polygon sweptAlongX(const Polygon& convex, double reachMm);
struct Box {
  double x0 = 1e300, y0 = 1e300, x1 = -1e300, y1 = -1e300;
};
Box boxOf(const Polygon& p);
// The points turned by −angle about the origin.
Polygon turnedBack(const Polygon& p, double angleRad);
// A piece's box in the frame of its blank.
Box inBlank(const Blank& blank, const Piece& piece);

}  // namespace rackside::checking
