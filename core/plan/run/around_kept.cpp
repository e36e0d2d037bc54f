// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/run/around_kept.h"

#include <algorithm>

namespace rackside {
namespace {

bool has(const std::map<PartId, std::set<int>>& copies, const PartId& part, int copy) {
  const auto found = copies.find(part);
  return found != copies.end() && found->second.count(copy) > 0;
}

}  // namespace

AroundKept::AroundKept(const Reduced& above, Kept kept, bool onlyWhatIsLost)
    : above_(above), bench_(above.request, kept, onlyWhatIsLost) {
  below_.panels = above.panels;
  below_.held = above.held;
  below_.held.resize(above.request.parts.size(), 0);
  below_.request.shop = above.request.shop;
  below_.request.worth = above.request.worth;
  below_.request.tones = above.request.tones;
  below_.request.forbidden = above.request.forbidden;
  for (size_t p = 0; p < above.request.parts.size(); ++p) {
    Part part = above.request.parts[p];
    std::vector<int>& sought = sought_[part.id];
    for (int copy = 1; copy <= part.copies; ++copy) {
      if (has(bench_.keptCopies(), part.id, copy))
        ++below_.held[p];
      else if (isSought(part.id, copy, onlyWhatIsLost))
        sought.push_back(copy);
    }
    part.copies = static_cast<int>(sought.size());
    below_.request.parts.push_back(std::move(part));
  }
  openBoards();
  currentOfRest();
}

bool AroundKept::isSought(const PartId& part, int copy, bool onlyWhatIsLost) const {
  if (!onlyWhatIsLost || has(bench_.lostCopies(), part, copy)) return true;
  const auto& pieces = above_.request.current->pieces;
  return std::any_of(pieces.begin(), pieces.end(), [&](const Piece& p) {
    return p.part == part && p.copy == copy && !bench_.isTouched(p.board);
  });
}

const OpenPiece* AroundKept::openOf(const BoardId& id) const {
  for (const OpenPiece& open : bench_.open())
    if (open.board.id == id) return &open;
  return nullptr;
}

void AroundKept::openBoards() {
  PlanRequest& rest = below_.request;
  for (const Board& board : above_.request.boards)
    if (!bench_.isTouched(board.id) && !board.cutUp) rest.boards.push_back(board);
  for (const OpenPiece& open : bench_.open()) {
    rest.boards.push_back(open.board);
    for (const auto& [place, map] : above_.request.worth)
      if (std::get<BoardId>(place) == open.parent)
        rest.worth[{open.board.id, std::get<Face>(place), std::get<Look>(place)}] = map;
  }
}

// The current plan on boards that are left whole, its copies numbered among those sought.
void AroundKept::currentOfRest() {
  const PlanRequest& above = above_.request;
  const auto isWhole = [&](const BoardId& id) { return !bench_.isTouched(id); };
  for (const Blank& b : above.current->blanks)
    if (isWhole(b.board)) current_.blanks.push_back(b);
  for (const Cut& c : above.current->cuts)
    if (isWhole(c.board)) current_.cuts.push_back(c);
  for (Piece p : above.current->pieces) {
    if (!isWhole(p.board)) continue;
    const auto sought = sought_.find(p.part);
    if (sought == sought_.end()) continue;
    const auto at = std::find(sought->second.begin(), sought->second.end(), p.copy);
    if (at == sought->second.end()) continue;
    p.copy = static_cast<int>(at - sought->second.begin()) + 1;
    if (std::count(above.pinned.begin(), above.pinned.end(), p.id))
      below_.request.pinned.push_back(p.id);
    current_.pieces.push_back(std::move(p));
  }
  below_.request.current = &current_;
}

Cut AroundKept::onBoard(Cut cut, std::map<BoardId, int>& last) const {
  if (const OpenPiece* open = openOf(cut.board)) {
    cut.board = open->parent;
    if (!cut.parent) {
      cut.parent = open->cut;
      cut.leftOfParent = open->left;
    }
  }
  cut.order = ++last[cut.board];
  return cut;
}

void AroundKept::raise(Plan& plan) const {
  Plan rest = std::move(plan);
  plan = bench_.kept();
  std::map<BoardId, int> last;
  for (const Cut& cut : plan.cuts) last[cut.board] = std::max(last[cut.board], cut.order);
  for (Cut& cut : rest.cuts) plan.cuts.push_back(onBoard(std::move(cut), last));
  for (Blank& blank : rest.blanks) {
    if (const OpenPiece* open = openOf(blank.board)) blank.board = open->parent;
    plan.blanks.push_back(std::move(blank));
  }
  for (Piece& piece : rest.pieces) {
    if (const OpenPiece* open = openOf(piece.board)) piece.board = open->parent;
    piece.copy = sought_.at(piece.part)[static_cast<size_t>(piece.copy) - 1];
    plan.pieces.push_back(std::move(piece));
  }
  plan.bound = bench_.kept().value + rest.bound;
  plan.gridBound = bench_.kept().value + rest.gridBound;
  plan.stockMm2 += rest.stockMm2;
  plan.stockBound = rest.stockBound;
  plan.stopped = rest.stopped;
}

}  // namespace rackside
