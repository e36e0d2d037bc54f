// SPDX-License-Identifier: GPL-3.0-or-later
// What the program asks of polygons. Offsets and booleans are polyclipping's (integers of 1/1000 mm
// inside, so a result is right to that grid).
#pragma once

#include "core/geometry/shapes.h"

namespace rackside {

double signedArea(const Polygon& p);  // mm², > 0 when counter-clockwise
double area(const Polygons& ps);      // mm², holes (clockwise) subtract
Rect bounds(const Polygon& p);
bool contains(const Polygon& p, Point q);  // the border counts as inside
double distanceToBorder(const Polygon& p, Point q);
Polygon rectangle(const Rect& r);
Polygon ellipsePolygon(const Ellipse& e, double toleranceMm);
Polygons strokePolygons(const Stroke& s);
// deltaMm > 0 grows, < 0 shrinks; round corners to toleranceMm.
Polygons offset(const Polygons& ps, double deltaMm, double toleranceMm = 0.1);
// The wood a shape passes over while it is moved by `by` without turning; holes are filled.
Polygons sweep(const Polygons& ps, Point by);
Polygons unite(const Polygons& a, const Polygons& b);
Polygons intersect(const Polygons& a, const Polygons& b);
Polygons subtract(const Polygons& a, const Polygons& b);
bool isSimple(const Polygon& p);  // no edge crosses another
// The two sides of a directed line: left and right of from→to, each without the kerf's half plane.
Polygons keepLeftOf(const Polygons& ps, const Segment& line);

}  // namespace rackside
