// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/idle_cuts.h"

#include <algorithm>
#include <map>

#include "core/plan/cut_tree.h"

namespace rackside {
namespace {

Point middleOf(const Blank& blank) {
  const Polygon p = blank.roughOutline();
  return 0.5 * (p[0] + p[2]);
}

// The cuts of a plan as a tree, by id; sides are true for left.
class Tree {
 public:
  explicit Tree(Plan& plan) : plan_(plan) {
    for (Cut& cut : plan.cuts) byId_[cut.id] = &cut;
    for (Cut& cut : plan.cuts)
      if (cut.parent) below_[{*cut.parent, cut.leftOfParent}] = &cut;
    for (const Blank& blank : plan.blanks) {
      const auto last = byId_.find(blank.lastCut);
      if (last == byId_.end()) continue;
      held_.insert({blank.lastCut, isLeftOf(last->second->line, middleOf(blank))});
    }
  }

  std::set<CutId> thatFreeSomething() const {
    std::set<CutId> needed;
    for (const auto& [cut, side] : held_) needAll(cut, needed);
    for (const Cut& cut : plan_.cuts)
      if (cut.made) needAll(cut.id, needed);
    return needed;
  }

  bool isBare(const Cut& cut, bool left) const {
    return !below_.count({cut.id, left}) && !held_.count({cut.id, left});
  }

  // The next cut of its kind, when what lies between the two is waste on both sides of this one.
  Cut* thatMakesIdle(const Cut& cut) const {
    if (cut.made || isBare(cut, true) == isBare(cut, false)) return nullptr;
    const auto found = below_.find({cut.id, !isBare(cut, true)});
    if (found == below_.end()) return nullptr;
    Cut* next = found->second;
    const bool between = isLeftOf(next->line, rackside::middleOf(cut.line));
    return next->kind == cut.kind && !next->made && isBare(*next, between) ? next : nullptr;
  }

 private:
  void needAll(CutId id, std::set<CutId>& needed) const {
    for (auto at = byId_.find(id); at != byId_.end() && needed.insert(at->first).second;
         at = byId_.find(*at->second->parent))
      if (!at->second->parent) return;
  }

  Plan& plan_;
  std::map<CutId, Cut*> byId_;
  std::map<std::pair<CutId, bool>, Cut*> below_;
  std::set<std::pair<CutId, bool>> held_;  // sides on which a blank is free
};

// The line is turned so that the wood kept lies on its left, and its waste gives the wider kerf.
void makeFirstRip(Plan& plan, Cut& rip, const Cut& was, bool wasteIsLeft) {
  if (wasteIsLeft) {
    const Segment border = borderOf(rip, false);
    rip.line = {border.to, border.from};
    for (Cut& cut : plan.cuts)
      if (cut.parent == rip.id) cut.leftOfParent = !cut.leftOfParent;
  }
  const double slope = (was.line.to.y - was.line.from.y) / (was.line.to.x - was.line.from.x);
  const auto offset = [&](Point from, double atFrom, Point p) {
    return atFrom + (p.y - from.y) - slope * (p.x - from.x);
  };
  rip.offsetAtFromMm = offset(was.line.from, was.offsetAtFromMm, rip.line.from);
  rip.offsetAtToMm = offset(was.line.to, was.offsetAtToMm, rip.line.to);
  rip.firstRip = true;
  rip.kerfMm = was.kerfMm;
  rip.label = was.label;
}

bool mergeOne(Plan& plan) {
  const Tree tree(plan);
  for (size_t i = 0; i < plan.cuts.size(); ++i) {
    const Cut idle = plan.cuts[i];
    Cut* next = tree.thatMakesIdle(plan.cuts[i]);
    if (!next) continue;
    next->parent = idle.parent;
    next->leftOfParent = idle.leftOfParent;
    if (idle.firstRip)
      makeFirstRip(plan, *next, idle, isLeftOf(next->line, rackside::middleOf(idle.line)));
    std::erase_if(plan.cuts, [&](const Cut& cut) { return cut.id == idle.id; });
    return true;
  }
  return false;
}

void sayWhatIsWaste(Plan& plan, const std::set<BoardId>& boards) {
  const Tree tree(plan);
  for (Cut& cut : plan.cuts) {
    if (cut.made || !boards.count(cut.board)) continue;
    cut.wasteIsLeft = tree.isBare(cut, true);
    cut.wasteIsRight = tree.isBare(cut, false);
  }
}

void numberAnew(Plan& plan, const std::set<BoardId>& boards) {
  for (const BoardId& board : boards) {
    std::vector<Cut*> cuts;
    for (Cut& cut : plan.cuts)
      if (cut.board == board) cuts.push_back(&cut);
    std::stable_sort(cuts.begin(), cuts.end(),
                     [](const Cut* a, const Cut* b) { return a->order < b->order; });
    for (size_t i = 0; i < cuts.size(); ++i) cuts[i]->order = static_cast<int>(i) + 1;
  }
}

std::map<BoardId, size_t> cutsByBoard(const Plan& plan) {
  std::map<BoardId, size_t> count;
  for (const Cut& cut : plan.cuts) ++count[cut.board];
  return count;
}

}  // namespace

void takeOutIdleCuts(Plan& plan) {
  const auto before = cutsByBoard(plan);
  const std::set<CutId> needed = Tree(plan).thatFreeSomething();
  std::erase_if(plan.cuts, [&](const Cut& cut) { return !needed.count(cut.id); });
  while (mergeOne(plan)) {
  }
  std::set<BoardId> changed;
  auto after = cutsByBoard(plan);
  for (const auto& [board, count] : before)
    if (after[board] != count) changed.insert(board);
  settleCuts(plan, changed);
}

void settleCuts(Plan& plan, const std::set<BoardId>& boards) {
  sayWhatIsWaste(plan, boards);
  numberAnew(plan, boards);
}

void takeOut(const std::set<PieceId>& pieces, Plan& plan) {
  if (pieces.empty()) return;
  std::erase_if(plan.pieces, [&](const Piece& p) { return pieces.count(p.id) > 0; });
  std::set<BlankId> held;
  for (const Piece& p : plan.pieces) held.insert(p.blank);
  std::erase_if(plan.blanks, [&](const Blank& b) { return held.count(b.id) == 0; });
  takeOutIdleCuts(plan);
}

}  // namespace rackside
