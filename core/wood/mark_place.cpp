// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/mark_place.h"

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

constexpr double kBesideMm = 10;  // strokes along an edge may lie a little off it

bool meet(const Rect& a, const Rect& b) {
  return a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
}

}  // namespace

Status liesOn(const Board& board, const Mark& mark) {
  if (board.outline.vertices.size() < 3) return success();
  Rect box = bounds(board.outline.polygon());
  const std::string size = std::to_string(static_cast<int>(box.width())) + " mm long and " +
                           std::to_string(static_cast<int>(box.height())) + " mm wide";
  box = {box.x0 - kBesideMm, box.y0 - kBesideMm, box.x1 + kBesideMm, box.y1 + kBesideMm};
  for (const Face face : {Face::A, Face::B})
    if (mark.on(face))
      for (const Polygon& p : polygonsOf(*mark.on(face)))
        if (meet(bounds(p), box)) return success();
  return Error{"The " + std::string(name(mark.kind)) + " lies wholly off board " + board.name +
               ", which is " + size + ": x runs from its left end, y from its near edge."};
}

}  // namespace rackside
