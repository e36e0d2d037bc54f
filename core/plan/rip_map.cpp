// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/rip_map.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr double kFarMm = 1e6;
constexpr double kRoundMm = 1e-6;  // keeps 12.0000000001 columns from becoming 13

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

void addOne(const Track& t, int from, int to, Intervals& out) {
  const int a = std::max(from, t.firstColumn()), b = std::min(to, t.lastColumn());
  if (a <= b) out.push_back(t.over(a, b));
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

std::vector<Track> tracksAcross(const Polygons& drawn, double angleRad, const ColumnGrid& grid) {
  return tracksOf(projectOnColumns(sheared(drawn, angleRad), grid));
}

std::vector<Track> tracksOutside(const Polygons& wood, double angleRad, const ColumnGrid& grid) {
  Polygons withFrame = sheared(wood, angleRad);
  withFrame.push_back({{-kFarMm, -kFarMm}, {kFarMm, -kFarMm}, {kFarMm, kFarMm}, {-kFarMm, kFarMm}});
  return tracksOf(projectOnColumns(withFrame, grid));
}

void addOver(const std::vector<Track>& tracks, int from, int to, Intervals& out) {
  for (const Track& t : tracks) addOne(t, from, to, out);
}

void addOver(const std::vector<const Track*>& tracks, int from, int to, Intervals& out) {
  for (const Track* t : tracks) addOne(*t, from, to, out);
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
