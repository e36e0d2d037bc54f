// SPDX-License-Identifier: GPL-3.0-or-later
// The smooth curve that most of a side follows, where it is a sawn one.
#pragma once

#include <optional>
#include <vector>

#include "core/geometry/shapes.h"

namespace rackside {

struct SideCurve {  // y = a + b u + c u², u = (x − middle) / half
  double middle = 0, half = 1;
  double a = 0, b = 0, c = 0;
  double at(double x) const {
    const double u = (x - middle) / half;
    return a + u * (b + u * c);
  }
};

// Empty where fewer than two thirds of the points lie within `nearMm` of one: a live edge, or a
// side not yet found. Points by x. A step in the side is told from a bend only when `nearMm` is
// small against it.
std::optional<SideCurve> straightSide(const std::vector<Point>& points, double nearMm = 2.5);

}  // namespace rackside
