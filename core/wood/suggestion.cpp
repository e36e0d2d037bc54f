// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/suggestion.h"

#include <algorithm>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

constexpr double kLeastWidthMm =
    3;                              // a line is taken this wide, so that a slip of the hand is none
constexpr double kLineShare = 0.3;  // of the shorter line
constexpr double kAreaShare = 0.15;  // of both together

enum class Sort { round, line, sapwood, wane, favour };

Sort sortOf(MarkKind kind) {
  switch (kind) {
    case MarkKind::check:
    case MarkKind::split:
    case MarkKind::shake:
      return Sort::line;
    case MarkKind::sapwood:
      return Sort::sapwood;
    case MarkKind::wane:
      return Sort::wane;
    case MarkKind::favour:
      return Sort::favour;
    default:
      return Sort::round;
  }
}

Polygons bodyOf(const MarkShape& shape) {
  if (const auto* s = std::get_if<Stroke>(&shape))
    return strokePolygons({s->points, std::max(s->widthMm, kLeastWidthMm)});
  return polygonsOf(shape);
}

bool covers(const MarkShape& a, const MarkShape& b, Sort sort) {
  const Polygons pa = bodyOf(a), pb = bodyOf(b);
  const double areaA = area(pa), areaB = area(pb), both = area(intersect(pa, pb));
  return sort == Sort::line ? both > kLineShare * std::min(areaA, areaB)
                            : both > kAreaShare * (areaA + areaB - both);
}

}  // namespace

bool sameThing(const Mark& a, const Mark& b) {
  const Sort sort = sortOf(a.kind);
  if (sort != sortOf(b.kind)) return false;
  for (const Face f : {Face::A, Face::B})
    if (a.on(f) && b.on(f) && covers(*a.on(f), *b.on(f), sort)) return true;
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
