// SPDX-License-Identifier: GPL-3.0-or-later
// The part of polygon.h that polyclipping does.
#include <cmath>
#include <polyclipping/clipper.hpp>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

namespace clip = ClipperLib;

constexpr double kGridPerMm = 1000;
// A line that was drawn without a width is still wood to keep away from.
constexpr double kHairlineMm = 0.2;

clip::Path toGrid(const Polygon& p) {
  clip::Path path;
  path.reserve(p.size());
  for (const Point q : p)
    path.emplace_back(std::llround(q.x * kGridPerMm), std::llround(q.y * kGridPerMm));
  return path;
}

clip::Paths toGrid(const Polygons& ps) {
  clip::Paths paths;
  for (const Polygon& p : ps)
    if (p.size() >= 3) paths.push_back(toGrid(p));
  return paths;
}

Polygons fromGrid(const clip::Paths& paths) {
  Polygons ps;
  for (const clip::Path& path : paths) {
    Polygon p;
    p.reserve(path.size());
    for (const clip::IntPoint q : path)
      p.push_back({static_cast<double>(q.X) / kGridPerMm, static_cast<double>(q.Y) / kGridPerMm});
    if (p.size() >= 3) ps.push_back(std::move(p));
  }
  return ps;
}

Polygons combine(clip::ClipType type, const Polygons& a, const Polygons& b) {
  clip::Clipper clipper;
  clipper.AddPaths(toGrid(a), clip::ptSubject, true);
  clipper.AddPaths(toGrid(b), clip::ptClip, true);
  clip::Paths result;
  clipper.Execute(type, result, clip::pftNonZero, clip::pftNonZero);
  return fromGrid(result);
}

}  // namespace

Polygons strokePolygons(const Stroke& s) {
  if (s.points.empty()) return {};
  clip::ClipperOffset grow(2.0, 0.1 * kGridPerMm);
  grow.AddPath(toGrid(s.points), clip::jtRound, clip::etOpenRound);
  clip::Paths result;
  grow.Execute(result, std::max(s.widthMm, kHairlineMm) / 2 * kGridPerMm);
  return fromGrid(result);
}

Polygons offset(const Polygons& ps, double deltaMm, double toleranceMm) {
  clip::ClipperOffset grow(2.0, toleranceMm * kGridPerMm);
  // United first, so that holes are clockwise and no two outlines overlap.
  grow.AddPaths(toGrid(unite(ps, {})), clip::jtRound, clip::etClosedPolygon);
  clip::Paths result;
  grow.Execute(result, deltaMm * kGridPerMm);
  return fromGrid(result);
}

Polygons unite(const Polygons& a, const Polygons& b) {
  return combine(clip::ctUnion, a, b);
}
Polygons intersect(const Polygons& a, const Polygons& b) {
  return combine(clip::ctIntersection, a, b);
}
Polygons subtract(const Polygons& a, const Polygons& b) {
  return combine(clip::ctDifference, a, b);
}

}  // namespace rackside
