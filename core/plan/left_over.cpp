// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/left_over.h"

#include <algorithm>

#include "core/plan/cut_tree.h"
#include "core/wood/offcut.h"

namespace rackside {
namespace {

void addLeftOver(const Board& board, const Plan& plan, const LeastSize& least,
                 std::vector<LeftOver>& out) {
  const bool cut = std::any_of(plan.cuts.begin(), plan.cuts.end(),
                               [&](const Cut& c) { return c.board == board.id; });
  if (!cut) {
    out.push_back({board, area({board.outline.polygon()}), true});
    return;
  }
  const CutTree tree(board, plan);
  for (const CutTree::Key& key : tree.leaves())
    for (const Polygon& piece : tree.region(key)) {
      const Rect box = bounds(piece);
      if (box.width() < least.lengthMm || box.height() < least.widthMm) continue;
      if (!holdsBlank(piece, plan, board.id))
        out.push_back({pieceOfBoard(board, piece), area({piece}), false});
    }
}

}  // namespace

bool mayBeCut(const PlanRequest& request, const Board& board) {
  return !board.isSpokenFor() && !board.cutUp &&
         std::find(request.forbidden.begin(), request.forbidden.end(), board.id) ==
             request.forbidden.end();
}

std::vector<LeftOver> leftOvers(const PlanRequest& request, const Plan& plan,
                                const LeastSize& least) {
  std::vector<LeftOver> woods;
  for (const Board& board : request.boards)
    if (mayBeCut(request, board)) addLeftOver(board, plan, least, woods);
  std::stable_sort(woods.begin(), woods.end(), [](const LeftOver& a, const LeftOver& b) {
    return a.whole != b.whole ? b.whole : a.areaMm2 < b.areaMm2;
  });
  return woods;
}

}  // namespace rackside
