// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/rip_map.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr double kFarMm = 1e6;           // no board is so wide
constexpr double kFrameMm = 2 * kFarMm;  // beyond it, however a rip leans
constexpr double kRoundMm = 1e-6;        // keeps 12.0000000001 columns from becoming 13

int up(double mm, double cellMm) {
  return static_cast<int>(std::ceil((mm - kRoundMm) / cellMm));
}
int down(double mm, double cellMm) {
  return static_cast<int>(std::floor((mm + kRoundMm) / cellMm));
}

Polygons sheared(const Polygons& drawn, double angleRad) {
  Polygons out = drawn;
  for (Polygon& p : out)
    for (Point& q : p) q.y = acrossRip(q, angleRad);
  return out;
}

// A track is asked in stretches over which the lean changes little.
constexpr double kStretchMm = 0.75;
constexpr int kMostStretches = 8;

void addOne(const Track& t, int from, int to, const Lean& lean, Intervals& out) {
  int a = std::max(from, t.firstColumn());
  const int b = std::min(to, t.lastColumn());
  if (a > b) return;
  if (lean.mmAColumn == 0 && lean.slackMm == 0) {
    out.push_back(t.over(a, b));
    return;
  }
  const int stretch =
      lean.mmAColumn * (b - a) < kStretchMm
          ? b - a + 1
          : std::max((b - a) / kMostStretches + 1, static_cast<int>(kStretchMm / lean.mmAColumn));
  for (; a <= b; a += stretch) {
    const int last = std::min(b, a + stretch - 1);
    const double shift = lean.slackMm + lean.mmAColumn * std::max(std::abs(a - lean.pivot),
                                                                  std::abs(last + 1 - lean.pivot));
    const Interval whole = t.over(a, last);
    if (whole.lo + shift < whole.hi - shift) out.push_back({whole.lo + shift, whole.hi - shift});
  }
}

}  // namespace

Footprint footprintOf(const BlankKind& kind, double grainToleranceRad, double angleRad,
                      double cellMm, double crosscutKerfMm, Reading reading) {
  Footprint f;
  f.fits = std::abs(angleRad) <= grainToleranceRad + 1e-9;
  f.widthMm = kind.roughWidthMm;
  f.sideMm = (kind.roughWidthMm - kind.pieceWidthMm) / 2;
  f.roughLengthMm = kind.roughLengthMm;
  const double slope = std::abs(std::sin(angleRad)), along = std::cos(angleRad);
  double box = kind.roughLengthMm * along + kind.roughWidthMm * slope;
  const double clearBox = kind.clearLengthMm * along + kind.pieceWidthMm * slope;
  if (reading == Reading::forPlans) {
    f.steps = up(box + crosscutKerfMm, cellMm);
    if (angleRad == 0) box = f.roughLengthMm = f.steps * cellMm - crosscutKerfMm;
    f.coverLast = up(box, cellMm) - 1;
    const double end = (box - clearBox) / 2;
    f.clearFirst = down(end, cellMm);
    f.clearLast = up(end + clearBox, cellMm) - 1;
  } else {
    f.steps = down(box + crosscutKerfMm, cellMm);
    const double end = (box - clearBox) / 2;
    const double tip = kind.roughWidthMm * slope, clearTip = kind.pieceWidthMm * slope;
    f.coverFirst = 1 + up(tip, cellMm);
    f.coverLast = down(box - tip, cellMm) - 1;
    f.clearFirst = 1 + up(end + clearTip, cellMm);
    f.clearLast = down(end + clearBox - clearTip, cellMm) - 1;
  }
  return f;
}

// Its sizes along the board are least, or greatest, at the first or the last of the angles; across,
// all widths shrink alike when the rip turns back towards the axis.
Footprint footprintOver(const BlankKind& kind, double grainToleranceRad,
                        const RipDirection& direction, double cellMm, const Shop& shop) {
  const double nearest = direction.nearestToAxis(), farthest = direction.farthestFromAxis();
  const auto at = [&](double angle) {
    return footprintOf(kind, grainToleranceRad, angle, cellMm, shop.crosscutKerfMm,
                       Reading::forBounds);
  };
  Footprint f = at(nearest);
  const Footprint far = at(farthest);
  f.steps = std::min(f.steps, far.steps);
  f.coverFirst = std::max(f.coverFirst, far.coverFirst);
  f.coverLast = std::min(f.coverLast, far.coverLast);
  f.clearFirst = std::max(f.clearFirst, far.clearFirst);
  f.clearLast = std::min(f.clearLast, far.clearLast);
  const double share = std::cos(direction.angleRad) / std::cos(nearest);
  f.widthMm = (f.widthMm + shop.ripKerfMm) * share - shop.ripKerfMm;
  f.sideMm = (f.widthMm - kind.pieceWidthMm * share) / 2;
  return f;
}

// On no more columns than it stands on.
std::vector<Track> tracksAcross(const Polygons& drawn, double angleRad, const ColumnGrid& grid) {
  double x0 = 1e300, x1 = -1e300;
  for (const Polygon& p : drawn)
    for (const Point q : p) x0 = std::min(x0, q.x), x1 = std::max(x1, q.x);
  const int from = std::max(0, static_cast<int>(std::floor((x0 - grid.first) / grid.width)) - 1);
  const int to = std::min(grid.count, static_cast<int>((x1 - grid.first) / grid.width) + 2);
  if (x0 > x1 || from >= to) return {};
  const ColumnGrid here{grid.first + from * grid.width, grid.width, to - from};
  return tracksOf(projectOnColumns(sheared(drawn, angleRad), here), from);
}

std::vector<Track> tracksOutside(const Polygons& wood, double angleRad, const ColumnGrid& grid) {
  Polygons withFrame = sheared(wood, angleRad);
  withFrame.push_back(
      {{-kFrameMm, -kFrameMm}, {kFrameMm, -kFrameMm}, {kFrameMm, kFrameMm}, {-kFrameMm, kFrameMm}});
  return tracksOf(projectOnColumns(withFrame, grid));
}

void addOver(const std::vector<Track>& tracks, int from, int to, const Lean& lean, Intervals& out) {
  for (const Track& t : tracks) addOne(t, from, to, lean, out);
}

void addOver(const std::vector<const Track*>& tracks, int from, int to, const Lean& lean,
             Intervals& out) {
  for (const Track* t : tracks) addOne(*t, from, to, lean, out);
}

void gapsFor(Intervals& blocked, double width, double inset, Intervals& out) {
  std::sort(blocked.begin(), blocked.end(), [](auto a, auto b) { return a.lo < b.lo; });
  double bottom = -kFarMm;
  for (const Interval& b : blocked) {
    const Interval gap{bottom - inset, b.lo + inset - width};
    if (gap.hi >= gap.lo) out.push_back(gap);
    bottom = std::max(bottom, b.hi);
  }
  if (bottom < kFarMm) out.push_back({bottom - inset, kFarMm});
}

void addIntersection(const Intervals& a, const Intervals& b, Intervals& out) {
  for (size_t i = 0, j = 0; i < a.size() && j < b.size();) {
    const double lo = std::max(a[i].lo, b[j].lo), hi = std::min(a[i].hi, b[j].hi);
    if (lo <= hi) out.push_back({lo, hi});
    if (a[i].hi < b[j].hi)
      ++i;
    else
      ++j;
  }
}

Intervals without(const Intervals& all, double lo, double hi) {
  Intervals out;
  for (const Interval& i : all) {
    if (i.lo < lo) out.push_back({i.lo, std::min(i.hi, lo)});
    if (i.hi > hi) out.push_back({std::max(i.lo, hi), i.hi});
  }
  return out;
}

}  // namespace rackside
