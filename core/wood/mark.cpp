// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/mark.h"

#include <algorithm>

#include "core/base/limits.h"
#include "core/base/name_table.h"
#include "core/geometry/polygon.h"
#include "core/wood/mark_traits.h"

namespace rackside {
namespace {

constexpr double kCurveToleranceMm = 0.2;

constexpr const char* kTooFar = "it lies more than 30 m away, or a figure of it is not a number";

bool onABoard(Point p) {
  return within(p.x, -kMostBoardMm, kMostBoardMm) && within(p.y, -kMostBoardMm, kMostBoardMm);
}
std::string faultOfPoints(const Polygon& points) {
  if (points.size() > kMostVertices) return "it has too many points";
  return std::all_of(points.begin(), points.end(), onABoard) ? "" : kTooFar;
}

std::string fault(const Polygon& p) {
  if (p.size() < 3) return "an area needs at least three corners";
  const std::string wrong = faultOfPoints(p);
  if (!wrong.empty()) return wrong;
  if (!isSimple(p)) return "its outline crosses itself; draw it round without crossing";
  return {};
}
std::string fault(const Ellipse& e) {
  if (!onABoard(e.centre)) return kTooFar;
  if (!within(e.angleRad, -1000, 1000)) return "its angle is not a number";
  if (!(e.semiX > 0 && e.semiY > 0)) return "an ellipse needs a size in both directions";
  if (!onABoard({e.semiX, e.semiY})) return "it is larger than 30 m, so a number in it is wrong";
  return {};
}
std::string fault(const Stroke& s) {
  if (s.points.size() < 2) return "a line needs at least two points";
  if (!within(s.widthMm, 0, kMostBoardMm)) return "its width must be 0 or more, and below 30 m";
  return faultOfPoints(s.points);
}

std::string faultOfFields(const Mark& m) {
  if (!m.onA && !m.onB) return "it lies on no face; draw it on face A or face B";
  if (m.depthMm && !(*m.depthMm > 0 && *m.depthMm <= kMostThicknessMm))
    return "its depth must be more than 0 mm, and at most 1000";
  if (m.depthMm && m.through) return "it has a depth and goes through; keep one of the two";
  if (!(m.confidence >= 0 && m.confidence <= 1)) return "its confidence must be from 0 to 1";
  const Judged judged = traitsOf(m.kind).judged;
  if (m.live && judged != Judged::soundnessAndLife) return "only worm holes can be live";
  if (m.soundness != Soundness::unknown && judged == Judged::no)
    return "only knots and worm holes can be sound or loose";
  return {};
}

}  // namespace

const std::vector<MarkKind>& allMarkKinds() {
  static const std::vector<MarkKind> kinds = [] {
    std::vector<MarkKind> all;
    for (const MarkTraits& traits : allMarkTraits()) all.push_back(traits.kind);
    return all;
  }();
  return kinds;
}

std::string_view name(MarkKind kind) {
  return traitsOf(kind).name;
}
std::optional<MarkKind> markKindFromName(std::string_view name) {
  for (const MarkTraits& traits : allMarkTraits())
    if (sameName(traits.name, name)) return traits.kind;
  return std::nullopt;
}

Polygons polygonsOf(const MarkShape& shape) {
  if (const auto* polygon = std::get_if<Polygon>(&shape)) return unite({*polygon}, {});
  if (const auto* ellipse = std::get_if<Ellipse>(&shape))
    return {ellipsePolygon(*ellipse, kCurveToleranceMm)};
  return strokePolygons(std::get<Stroke>(shape));
}

Status validate(const Mark& mark) {
  std::string wrong = faultOfFields(mark);
  for (const Face face : {Face::A, Face::B})
    if (wrong.empty() && mark.on(face))
      wrong = std::visit([](const auto& shape) { return fault(shape); }, *mark.on(face));
  if (wrong.empty()) return success();
  return Error{"The " + std::string(name(mark.kind)) + " mark cannot be kept: " + wrong + "."};
}

}  // namespace rackside
