// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/bench.h"

#include <algorithm>

#include "core/plan/made_cuts.h"
#include "core/plan/standing.h"
#include "core/plan/stock.h"
#include "core/wood/offcut.h"

namespace rackside {
namespace {

// What a clipped region may have beside its one piece: slivers of no use.
constexpr double kSliverMm2 = 100;

// Numbered from 1 on each board in the order they are in.
void renumber(std::vector<Cut>& cuts) {
  std::map<BoardId, int> last;
  for (Cut& cut : cuts) cut.order = ++last[cut.board];
}

Point middleOfBlank(const Blank& blank) {
  const Polygon p = blank.roughOutline();
  return 0.5 * (p[0] + p[2]);
}

bool holds(const Polygons& region, Point q) {
  return std::any_of(region.begin(), region.end(),
                     [&](const Polygon& p) { return contains(p, q); });
}

}  // namespace

Bench::Bench(const PlanRequest& request, bool onlyWhatIsLost) : request_(request) {
  for (const Cut& cut : request.current->cuts)
    if (cut.made) {
      made_.cuts.push_back(cut);
      cutInto_.insert(cut.board);
    }
  kept_.cuts = made_.cuts;
  for (const Board& board : request.boards)
    if (isCutInto(board.id)) sort(board);
  std::stable_sort(kept_.cuts.begin(), kept_.cuts.end(),
                   [](const Cut& a, const Cut& b) { return a.order < b.order; });
  renumber(kept_.cuts);
  if (onlyWhatIsLost)
    std::erase_if(open_, [&](const OpenPiece& piece) { return !mightHoldLost(piece); });
}

bool Bench::mightHoldLost(const OpenPiece& piece) const {
  const Rect box = bounds(piece.board.outline.polygon());
  return std::any_of(request_.parts.begin(), request_.parts.end(), [&](const Part& part) {
    const double longer = std::max(part.lengthMm, part.widthMm);
    const double shorter = std::min(part.lengthMm, part.widthMm);
    return lost_.count(part.id) && longer <= std::max(box.width(), box.height()) &&
           shorter <= std::min(box.width(), box.height()) &&
           woodServes(part.species, piece.board.species, request_.shop.ownSpecies);
  });
}

void Bench::sort(const Board& board) {
  const CutTree madeTree(board, made_);
  kept_.stockMm2 += area({board.outline.polygon()});
  for (const CutTree::Key& key : madeTree.leaves()) {
    const Plan here = onRegion(board, madeTree, key);
    const bool planned = !here.blanks.empty();
    if (planned && !board.isSpokenFor() && stands(board, here)) {
      keep(here);
      continue;
    }
    for (const Piece& piece : here.pieces) lost_[piece.part].insert(piece.copy);
    if (!board.isSpokenFor() && !board.cutUp) addOpen(board, madeTree, key);
    // What is planned on it anew counts there.
    for (const Polygon& p : madeTree.region(key))
      if (planned || worthKeeping(p, request_.shop)) kept_.stockMm2 -= area({p});
  }
}

// What the current plan has on one piece of wood that the made cuts left.
Plan Bench::onRegion(const Board& board, const CutTree& madeTree, const CutTree::Key& key) const {
  Plan here;
  std::set<CutId> below;
  std::vector<const Cut*> cuts;
  for (const Cut& c : request_.current->cuts)
    if (c.board == board.id && !c.made && c.parent) cuts.push_back(&c);
  std::stable_sort(cuts.begin(), cuts.end(),
                   [](const Cut* a, const Cut* b) { return a->order < b->order; });
  for (const Cut* c : cuts) {
    const bool first = c->parent->text == key.first && c->leftOfParent == key.second;
    if (!first && !below.count(*c->parent)) continue;
    below.insert(c->id);
    here.cuts.push_back(*c);
  }
  std::set<BlankId> blanks;
  for (const Blank& b : request_.current->blanks) {
    const bool freed = b.lastCut.text == key.first && holds(madeTree.region(key), middleOfBlank(b));
    if (b.board != board.id || !(freed || below.count(b.lastCut))) continue;
    here.blanks.push_back(b);
    blanks.insert(b.id);
  }
  for (const Piece& p : request_.current->pieces)
    if (blanks.count(p.blank)) here.pieces.push_back(p);
  return here;
}

bool Bench::stands(const Board& board, const Plan& here) const {
  Plan alone = here;
  alone.cuts.clear();
  for (const Cut& cut : made_.cuts)
    if (cut.board == board.id) alone.cuts.push_back(cut);
  alone.cuts.insert(alone.cuts.end(), here.cuts.begin(), here.cuts.end());
  renumber(alone.cuts);
  return passesAlone(request_, board, alone);
}

void Bench::keep(const Plan& here) {
  kept_.cuts.insert(kept_.cuts.end(), here.cuts.begin(), here.cuts.end());
  kept_.blanks.insert(kept_.blanks.end(), here.blanks.begin(), here.blanks.end());
  for (const Piece& piece : here.pieces) {
    kept_.pieces.push_back(piece);
    kept_.value += piece.worth;
    copies_[piece.part].insert(piece.copy);
  }
}

void Bench::addOpen(const Board& board, const CutTree& madeTree, const CutTree::Key& key) {
  const Polygons& region = madeTree.region(key);
  const Polygon* piece = nullptr;
  for (const Polygon& p : region) {
    if (area({p}) < kSliverMm2) continue;
    if (piece) return;  // it has fallen apart: a maker's eye has to sort that
    piece = &p;
  }
  if (!piece) return;
  const Rect box = bounds(*piece);
  const Shop& shop = request_.shop;
  if (box.width() < shop.shortestSafeMm || box.height() < shop.narrowestSafeMm) return;
  OpenPiece open{pieceOfBoard(board, *piece), board.id, {key.first}, key.second};
  const std::string number = std::to_string(open_.size() + 1);
  open.board.id.text = board.id.text + "-bench-" + number;
  for (const Cut& cut : made_.cuts)
    if (cut.id == open.cut)
      open.board.name = board.name + " (what cut " + std::to_string(cut.order) + " left)";
  open_.push_back(std::move(open));
}

}  // namespace rackside
