// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/fit_test.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

// The lowest bottom whose rips on both sides meet no metal.
std::optional<double> lowest(const Intervals& bottoms, const Intervals& metal, double widthMm,
                             double kerfMm) {
  for (const Interval& range : bottoms) {
    double at = range.lo;
    for (const Interval& m : metal)
      if (at - kerfMm < m.hi && at + widthMm + kerfMm > m.lo) at = m.hi + kerfMm;
    if (at <= range.hi) return at;
  }
  return std::nullopt;
}

Rect boxOf(const BoardMap& map, int direction, int column, double bottomMm, const Footprint& f) {
  const double angle = map.angleRad(direction);
  const double sine = std::sin(angle), cosine = std::cos(angle);
  const double start =
      (map.columnX(column) + std::max(bottomMm * sine, (bottomMm + f.widthMm) * sine)) / cosine;
  Rect box{1e300, 1e300, -1e300, -1e300};
  for (const double u : {start, start + f.roughLengthMm})
    for (const double v : {bottomMm, bottomMm + f.widthMm}) {
      const Point p{u * cosine - v * sine, u * sine + v * cosine};
      box = {std::min(box.x0, p.x), std::min(box.y0, p.y), std::max(box.x1, p.x),
             std::max(box.y1, p.y)};
    }
  return box;
}

}  // namespace

std::optional<Place> placeFor(const Job& job, const BoardMap& map, int kindIndex,
                              const BlankKind& as, int step) {
  const double kerf = std::max(job.shop.ripKerfMm, job.shop.firstRipKerfMm);
  for (int d = 0; d < map.directions(); ++d) {
    const Footprint f = footprintOf(as, grainToleranceRad(job.parts[as.part]), map.angleRad(d),
                                    job.cellMm, job.shop.crosscutKerfMm, Reading::forPlans);
    if (!f.fits) continue;
    for (int c = 0; c + f.steps <= map.grid().count; c += step) {
      if (!map.mayBegin(c) || !map.mayBegin(c + f.steps)) continue;
      Intervals metal;
      if (map.hasMetal()) metal = map.metalOver(d, c, c + f.steps);
      std::sort(metal.begin(), metal.end(), [](auto a, auto b) { return a.lo < b.lo; });
      if (const auto at = lowest(map.bottoms(kindIndex, d, c, f), metal, f.widthMm, kerf))
        return Place{d, c, *at, boxOf(map, d, c, *at, f)};
    }
  }
  return std::nullopt;
}

std::optional<Place> placeFor(const Job& job, const BoardMap& map, int kindIndex, int step) {
  return placeFor(job, map, kindIndex, job.kinds[kindIndex], step);
}

}  // namespace rackside
