// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/usable_wood.h"

#include <algorithm>

namespace rackside {
namespace {

constexpr double kSigmasAt95 = 1.96;
constexpr double kLeastUnsureMm = 3;
// The stroke's round ends are polygons inside the true circle: wider by their tolerance.
constexpr double kCurveToleranceMm = 0.1;

}  // namespace

double edgeMarginMm(const OutlineVertex& from, const OutlineVertex& to) {
  const double u95 = kSigmasAt95 * std::max(from.sigmaMm, to.sigmaMm);
  return from.state == EdgeState::unsure ? std::max(2 * u95, kLeastUnsureMm) : u95;
}

Polygons usableWood(const Outline& outline) {
  Polygons margins;
  const auto& v = outline.vertices;
  for (size_t i = 0; i < v.size(); ++i) {
    const OutlineVertex& next = v[(i + 1) % v.size()];
    const double margin = edgeMarginMm(v[i], next);
    if (margin <= 0) continue;
    const Stroke edge{{v[i].at, next.at}, 2 * (margin + kCurveToleranceMm)};
    for (Polygon& p : strokePolygons(edge)) margins.push_back(std::move(p));
  }
  return subtract({outline.polygon()}, margins);
}

EndTrims endTrims(const Board& board, const Shop& shop) {
  const double sawn = std::min(shop.endTrimMm, shop.crosscutKerfMm);
  return {board.leftEndSawn ? sawn : shop.endTrimMm, board.rightEndSawn ? sawn : shop.endTrimMm};
}

bool lookedAt(const Board& board, Face face) {
  if (board.seen(face)) return true;
  const auto drawnHere = [&](const Mark& m) { return m.confirmed && m.on(face).has_value(); };
  if (std::any_of(board.marks.begin(), board.marks.end(), drawnHere)) return true;
  return face == Face::A && board.pictures.empty();
}

}  // namespace rackside
