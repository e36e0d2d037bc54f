// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/clear_area.h"

#include <algorithm>

#include "core/wood/mark_traits.h"

namespace rackside {
namespace {

// The end of a hand-drawn line wavers: its direction is taken over this length.
constexpr double kTipDirectionMm = 10;

bool spoilsTheBody(const Mark& m) {
  return traitsOf(m.kind).through || m.live;
}

bool goesThrough(const Board& board, const Mark& m) {
  return m.through || (m.depthMm && board.thicknessMm > 0 && *m.depthMm >= board.thicknessMm);
}

bool planedAway(const Board& board, const Mark& m, Face face, double takeOffMm) {
  return m.depthMm && m.depthFrom == face && *m.depthMm <= takeOffMm && !goesThrough(board, m) &&
         !spoilsTheBody(m);
}

// The first point at least kTipDirectionMm from the tip, going inwards from `first`.
template <class Iterator>
Point inwards(Iterator first, Iterator last) {
  const Point tip = *first;
  Point p = tip;
  for (Iterator i = first; i != last; ++i) {
    p = *i;
    if (norm(p - tip) >= kTipDirectionMm) break;
  }
  return p;
}

Point pastTip(Point tip, Point inside, double byMm) {
  const double length = norm(tip - inside);
  return length > 0 ? tip + (byMm / length) * (tip - inside) : tip;
}

Polygons runOn(const Stroke& stroke, double alongMm, double acrossMm) {
  Stroke longer = stroke;
  const auto& p = stroke.points;
  if (p.empty()) return {};
  longer.points.insert(longer.points.begin(),
                       pastTip(p.front(), inwards(p.begin(), p.end()), alongMm));
  longer.points.push_back(pastTip(p.back(), inwards(p.rbegin(), p.rend()), alongMm));
  longer.widthMm = stroke.widthMm + 2 * acrossMm;
  return strokePolygons(longer);
}

Polygons runOn(const Polygons& ps, double alongMm, double acrossMm) {
  Polygons moved = offset(ps, acrossMm);
  for (Polygon& p : moved)
    for (Point& q : p) q.x -= alongMm;
  return sweep(moved, {2 * alongMm, 0});
}

Polygons grown(const MarkShape& shape, MarkKind kind, double clearanceMm, double extraMm) {
  const Stroke* stroke = std::get_if<Stroke>(&shape);
  if (traitsOf(kind).form == MarkForm::line) {
    const double across = std::min(kAcrossGrainMm, clearanceMm) + extraMm;
    if (stroke) return runOn(*stroke, clearanceMm + extraMm, across);
    return runOn(polygonsOf(shape), clearanceMm + extraMm, across);
  }
  if (stroke)
    return strokePolygons({stroke->points, stroke->widthMm + 2 * (clearanceMm + extraMm)});
  return offset(polygonsOf(shape), clearanceMm + extraMm);
}

}  // namespace

bool counts(const Mark& mark) {
  return mark.confirmed && traitsOf(mark.kind).held != HeldBy::anything;
}

bool mayHold(const FaceAllows& allows, const Mark& mark) {
  if (mark.live) return false;
  switch (traitsOf(mark.kind).held) {
    case HeldBy::anything:
      return true;
    case HeldBy::knots:
      if (mark.soundness == Soundness::sound) return allows.soundKnots;
      return mark.soundness == Soundness::loose && !mark.through && allows.filledHoles;
    case HeldBy::sapwood:
      return allows.sapwood != SapwoodRule::no;
    case HeldBy::stain:
      return allows.stain;
    case HeldBy::filled:
      return allows.filledHoles;
    case HeldBy::filledIfSound:
      return allows.filledHoles && mark.soundness == Soundness::sound;
    case HeldBy::filledIfShallow:
      return allows.filledHoles && mark.depthMm.has_value() && !mark.through;
    case HeldBy::nothing:
      return false;
  }
  return false;
}

bool reaches(const Board& board, const Mark& mark, Face face) {
  if (mark.on(face)) return true;
  return mark.on(otherFace(face)) && (goesThrough(board, mark) || spoilsTheBody(mark));
}

bool bars(const Board& board, const Mark& mark, Face face, const FaceAllows& allows,
          double takeOffMm) {
  return counts(mark) && !mayHold(allows, mark) && !planedAway(board, mark, face, takeOffMm);
}

Polygons reachOf(const Board& board, const Mark& mark, Face face, const Shop& shop) {
  if (!reaches(board, mark, face)) return {};
  const double clearance = shop.clearance(mark.kind);
  Polygons here;
  if (mark.on(face)) here = grown(*mark.on(face), mark.kind, clearance, 0);
  const auto& beyond = mark.on(otherFace(face));
  if (!beyond || !(goesThrough(board, mark) || spoilsTheBody(mark))) return here;
  const double registrationMm = board.faceB ? board.faceB->u95Mm : 0;
  return unite(here, grown(*beyond, mark.kind, clearance, registrationMm));
}

Polygons forbidden(const Board& board, Face face, const FaceAllows& allows, const Shop& shop,
                   double takeOffMm) {
  Polygons all;
  for (const Mark& mark : board.marks) {
    if (!bars(board, mark, face, allows, takeOffMm)) continue;
    for (Polygon& p : reachOf(board, mark, face, shop)) all.push_back(std::move(p));
  }
  return unite(all, {});
}

Polygons barredToCuts(const Board& board, const Shop& shop) {
  Polygons all;
  for (const Mark& mark : board.marks)
    if (traitsOf(mark.kind).barsCuts && counts(mark))
      for (Polygon& p : reachOf(board, mark, Face::A, shop)) all.push_back(std::move(p));
  return unite(all, {});
}

}  // namespace rackside
