// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/slice.h"

#include <algorithm>

namespace rackside {
namespace {

// From the ends of a cut, where corners are broken off.
constexpr double kFromEndMm = 0.5;

// How far the polygon reaches to the right of the point s along from a line in direction d.
double reachAt(const Polygon& p, Point from, Point d, double s) {
  double reach = 0;
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i] - from, b = p[(i + 1) % p.size()] - from;
    const double sa = dot(a, d), sb = dot(b, d);
    if ((sa < s) == (sb < s) || sa == sb) continue;
    const Point at = a + ((s - sa) / (sb - sa)) * (b - a);
    reach = std::max(reach, cross(at, d));
  }
  return reach;
}

}  // namespace

Slice sliceBeside(const Segment& border, const Polygon& slice) {
  const double length = border.length();
  if (slice.size() < 3 || !(length > 2 * kFromEndMm)) return {};
  const Point d = (1 / length) * (border.to - border.from);
  // The slice lies to the right of the border as it is walked along here.
  double side = 0;
  for (const Point q : slice)
    if (const double off = cross(q - border.from, d); std::abs(off) > std::abs(side)) side = off;
  const Point from = side >= 0 ? border.from : border.to;
  const Point along = side >= 0 ? d : -1 * d;
  std::vector<double> places{kFromEndMm, length - kFromEndMm};
  for (const Point q : slice)
    for (const double by : {-1e-6, 1e-6})
      if (const double s = dot(q - from, along) + by; s > kFromEndMm && s < length - kFromEndMm)
        places.push_back(s);
  Slice found{1e300, 0};
  for (const double s : places) {
    const double reach = reachAt(slice, from, along, s);
    found = {std::min(found.leastMm, reach), std::max(found.greatestMm, reach)};
  }
  return found;
}

Polygon leftPart(const Polygon& p, const Segment& line) {
  const double length = line.length();
  if (!(length > 0)) return p;
  const Point d = (1 / length) * (line.to - line.from);
  Polygon kept;
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    const double sideA = cross(d, a - line.from), sideB = cross(d, b - line.from);
    if (sideA >= 0) kept.push_back(a);
    if ((sideA > 0 && sideB < 0) || (sideA < 0 && sideB > 0))
      kept.push_back(a + (sideA / (sideA - sideB)) * (b - a));
  }
  return kept;
}

Segment chordOf(const Polygon& p, const Segment& line) {
  const double length = line.length();
  if (!(length > 0)) return line;
  const Point d = (1 / length) * (line.to - line.from);
  double first = 1e300, last = -1e300;
  const auto take = [&](Point q) {
    const double s = dot(q - line.from, d);
    first = std::min(first, s), last = std::max(last, s);
  };
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    const double sideA = cross(d, a - line.from), sideB = cross(d, b - line.from);
    if (sideA == 0) take(a);
    if ((sideA > 0 && sideB < 0) || (sideA < 0 && sideB > 0))
      take(a + (sideA / (sideA - sideB)) * (b - a));
  }
  if (first >= last) return line;
  return {line.from + first * d, line.from + last * d};
}

bool mayBeRipped(const Slice& slice, const SawRules& rules) {
  if (slice.greatestMm < rules.leastSliceWidthMm) return false;
  return slice.leastMm >= rules.leastSliceWidthMm || slice.greatestMm >= rules.mostSurplusWidthMm;
}

bool mayBeCrosscut(const Slice& slice, const SawRules& rules) {
  return slice.greatestMm >= rules.leastSliceLengthMm;
}

}  // namespace rackside
