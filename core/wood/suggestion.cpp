// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/suggestion.h"

#include <algorithm>

#include "core/geometry/polygon.h"
#include "core/wood/mark_traits.h"

namespace rackside {
namespace {

constexpr double kLeastWidthMm =
    3;                              // a line is taken this wide, so that a slip of the hand is none
constexpr double kLineShare = 0.3;  // of the shorter line
constexpr double kAreaShare = 0.15;  // of both together

Polygons bodyOf(const MarkShape& shape) {
  if (const auto* s = std::get_if<Stroke>(&shape))
    return strokePolygons({s->points, std::max(s->widthMm, kLeastWidthMm)});
  return polygonsOf(shape);
}

bool covers(const MarkShape& a, const MarkShape& b, Likeness likeness) {
  const Polygons pa = bodyOf(a), pb = bodyOf(b);
  const double areaA = area(pa), areaB = area(pb), both = area(intersect(pa, pb));
  return likeness == Likeness::line ? both > kLineShare * std::min(areaA, areaB)
                                    : both > kAreaShare * (areaA + areaB - both);
}

}  // namespace

bool sameThing(const Mark& a, const Mark& b) {
  const Likeness likeness = traitsOf(a.kind).likeness;
  if (likeness != traitsOf(b.kind).likeness) return false;
  if (likeness == Likeness::sameKind && a.kind != b.kind) return false;
  for (const Face f : {Face::A, Face::B})
    if (a.on(f) && b.on(f) && covers(*a.on(f), *b.on(f), likeness)) return true;
  return false;
}

std::vector<Mark> onlyNews(const Board& board, std::vector<Mark> found) {
  const auto known = [&](const Mark& m) {
    const auto same = [&](const Mark& other) { return sameThing(m, other); };
    return std::any_of(board.refused.begin(), board.refused.end(), same) ||
           std::any_of(board.marks.begin(), board.marks.end(),
                       [&](const Mark& other) { return other.confirmed && same(other); });
  };
  found.erase(std::remove_if(found.begin(), found.end(), known), found.end());
  return found;
}

}  // namespace rackside
