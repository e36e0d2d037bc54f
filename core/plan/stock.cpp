// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/stock.h"

#include <algorithm>
#include <cmath>

#include "core/plan/cut_tree.h"
#include "core/plan/made_cuts.h"

namespace rackside {

double stockUpToMm2(const Polygon& outline, double x, const Shop& shop) {
  if (bounds(outline).x1 - x < shop.usefulOffcutLengthMm) return area({outline});
  // Twice the area left of x: edges that cross it are cut there, and what runs along it adds
  // nothing when heights are taken from it.
  double twice = 0;
  for (size_t i = 0; i < outline.size(); ++i) {
    Point a = outline[i], b = outline[(i + 1) % outline.size()];
    if (a.x >= x && b.x >= x) continue;
    const auto meet = [&] { return a + ((x - a.x) / (b.x - a.x)) * (b - a); };
    if (a.x > x) a = meet();
    if (b.x > x) b = meet();
    twice += (a.x - x) * (b.y - a.y) + (b.y - a.y) * (b.x - x);
  }
  return std::abs(twice) / 2;
}

BoardStock boardStock(const Board& board, const Plan& plan, const Shop& shop) {
  double usedTo = -1e9;
  for (const Cut& cut : plan.cuts)
    if (cut.board == board.id && cut.kind == CutKind::crosscut)
      usedTo = std::max({usedTo, cut.line.from.x, cut.line.to.x});
  if (usedTo <= -1e9) return {};
  // Of a sawn end nothing may be cut off.
  for (const Blank& blank : plan.blanks)
    if (blank.board == board.id) usedTo = std::max(usedTo, bounds(blank.roughOutline()).x1);
  const Polygon outline = board.outline.polygon();
  const double whole = area({outline});
  return {whole, whole - stockUpToMm2(outline, usedTo + shop.crosscutKerfMm, shop)};
}

double stockUsedMm2(const Board& board, const Plan& plan, const Shop& shop) {
  if (!hasMadeCuts(plan, board.id)) {
    const BoardStock stock = boardStock(board, plan, shop);
    return stock.boardMm2 - stock.offcutMm2;
  }
  double used = area({board.outline.polygon()});
  const CutTree tree(board, plan);
  for (const CutTree::Key& key : tree.leaves())
    for (const Polygon& piece : tree.region(key))
      if (worthKeeping(piece, shop) && !holdsBlank(piece, plan, board.id)) used -= area({piece});
  return used;
}

bool worthKeeping(const Polygon& piece, const Shop& shop) {
  const Rect b = bounds(piece);
  return b.width() >= shop.usefulOffcutLengthMm && b.height() >= shop.usefulOffcutWidthMm;
}

}  // namespace rackside
