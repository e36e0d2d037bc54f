// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/shapes.h"

namespace rackside {

Point apply(const Pose& outerFromInner, Point inner) {
  const double c = std::cos(outerFromInner.angleRad);
  const double s = std::sin(outerFromInner.angleRad);
  return {outerFromInner.origin.x + c * inner.x - s * inner.y,
          outerFromInner.origin.y + s * inner.x + c * inner.y};
}

Polygon apply(const Pose& outerFromInner, const Polygon& inner) {
  Polygon outer;
  outer.reserve(inner.size());
  for (const Point p : inner) outer.push_back(apply(outerFromInner, p));
  return outer;
}

}  // namespace rackside
