// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/bench.h"

#include <algorithm>

#include "core/base/each_in_parallel.h"
#include "core/plan/idle_cuts.h"
#include "core/plan/left_over.h"
#include "core/plan/standing.h"
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

// Cuts keep their numbers, which tell their turn among those of the whole board.
Plan without(const Plan& here, const std::set<PieceId>& pieces) {
  Plan rest = here;
  takeOut(pieces, rest);
  for (Cut& cut : rest.cuts)
    for (const Cut& was : here.cuts)
      if (was.id == cut.id) cut.order = was.order;
  return rest;
}

Rect boundsOf(const Polygons& region) {
  Rect box{1e300, 1e300, -1e300, -1e300};
  for (const Polygon& p : region) {
    const Rect b = bounds(p);
    box = {std::min(box.x0, b.x0), std::min(box.y0, b.y0), std::max(box.x1, b.x1),
           std::max(box.y1, b.y1)};
  }
  return box;
}

bool hasPinned(const PlanRequest& request, const BoardId& board) {
  return std::any_of(request.current->pieces.begin(), request.current->pieces.end(),
                     [&](const Piece& p) {
                       return p.board == board &&
                              std::count(request.pinned.begin(), request.pinned.end(), p.id) > 0;
                     });
}

// Of cuts across a board those at an end of one of these sections. The others are taken out, so
// that the wood on their two sides is one piece.
std::vector<Cut> bordering(const std::vector<Rect>& sections, std::vector<Cut> cuts,
                           double kerfMm) {
  const auto isBorder = [&](const Cut& cut) {
    const double x = middleOf(cut.line).x;
    return std::any_of(sections.begin(), sections.end(), [&](const Rect& s) {
      return std::min(std::abs(x - s.x0), std::abs(x - s.x1)) <= kerfMm + 1;
    });
  };
  for (size_t i = 0; i < cuts.size();) {
    if (isBorder(cuts[i])) {
      ++i;
      continue;
    }
    const Cut out = cuts[i];
    cuts.erase(cuts.begin() + static_cast<std::ptrdiff_t>(i));
    for (Cut& cut : cuts) {
      if (cut.parent != out.id) continue;
      cut.parent = out.parent;
      cut.leftOfParent = out.leftOfParent;
    }
  }
  return cuts;
}

}  // namespace

Bench::Bench(const PlanRequest& request, Kept kept, bool onlyWhatIsLost)
    : request_(request), mode_(kept) {
  for (const Cut& cut : request.current->cuts)
    if (cut.made) {
      fixed_.cuts.push_back(cut);
      touched_.insert(cut.board);
    }
  if (kept != Kept::whatIsCut) keepSections();
  kept_.cuts = fixed_.cuts;
  for (const Board& board : request.boards)
    if (isTouched(board.id)) sort(board);
  std::stable_sort(kept_.cuts.begin(), kept_.cuts.end(),
                   [](const Cut& a, const Cut& b) { return a.order < b.order; });
  renumber(kept_.cuts);
  if (onlyWhatIsLost)
    std::erase_if(open_, [&](const OpenPiece& piece) { return !mightHoldLost(piece); });
}

void Bench::keepSections() {
  std::vector<Sections> found(request_.boards.size());
  eachInParallel(static_cast<int>(found.size()), [&](int b, int) {
    if (!isTouched(request_.boards[b].id)) found[b] = sectionsThatStand(request_.boards[b]);
  });
  for (size_t b = 0; b < found.size(); ++b) {
    if (found[b].cuts.empty()) continue;
    touched_.insert(request_.boards[b].id);
    if (found[b].all) whole_.insert(request_.boards[b].id);
    fixed_.cuts.insert(fixed_.cuts.end(), found[b].cuts.begin(), found[b].cuts.end());
  }
}

// A board with a pinned piece is looked at whole unless all of it stands.
Bench::Sections Bench::sectionsThatStand(const Board& board) const {
  const Plan& plan = *request_.current;
  const CutTree tree(board, plan);
  std::vector<Cut> across;
  for (const Cut* cut : tree.cuts())
    if (tree.overFullWidth(*cut)) across.push_back(*cut);
  if (standsOn(request_, plan, board)) return {across, true};
  if (hasPinned(request_, board.id)) return {};
  Plan acrossAlone;
  acrossAlone.cuts = across;
  const CutTree sections(board, acrossAlone);
  std::vector<Rect> standing;
  for (const CutTree::Key& key : sections.leaves()) {
    const Plan here = onRegion(board, sections, key);
    if (!here.blanks.empty() && standingOf(board, here, across))
      standing.push_back(boundsOf(sections.region(key)));
  }
  if (standing.empty()) return {};
  return {bordering(standing, std::move(across), request_.shop.crosscutKerfMm), false};
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
  const CutTree fixed(board, fixed_);
  for (const CutTree::Key& key : fixed.leaves()) {
    const Plan here = onRegion(board, fixed, key);
    std::optional<Plan> stays;
    if (!here.blanks.empty() && !board.isSpokenFor())
      stays = whole_.count(board.id) ? here : standingOf(board, here, fixed_.cuts);
    if (stays) keep(*stays);
    for (const Piece& piece : here.pieces)
      if (!stays || std::none_of(stays->pieces.begin(), stays->pieces.end(),
                                 [&](const Piece& p) { return p.id == piece.id; }))
        lost_[piece.part].insert(piece.copy);
    if (!stays && mayBeCut(request_, board)) addOpen(board, fixed, key);
  }
}

// What the current plan has on one piece of wood that the fixed cuts leave.
Plan Bench::onRegion(const Board& board, const CutTree& fixed, const CutTree::Key& key) const {
  Plan here;
  std::set<CutId> below;
  std::vector<const Cut*> cuts;
  const auto isFixed = [&](const Cut& cut) {
    return std::any_of(fixed.cuts().begin(), fixed.cuts().end(),
                       [&](const Cut* f) { return f->id == cut.id; });
  };
  for (const Cut& c : request_.current->cuts)
    if (c.board == board.id && c.parent && !isFixed(c)) cuts.push_back(&c);
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
    const bool freed = b.lastCut.text == key.first && holds(fixed.region(key), middleOfBlank(b));
    if (b.board != board.id || !(freed || below.count(b.lastCut))) continue;
    here.blanks.push_back(b);
    blanks.insert(b.id);
  }
  for (const Piece& p : request_.current->pieces)
    if (blanks.count(p.blank)) here.pieces.push_back(p);
  return here;
}

// With the cuts that stay on the board before its own.
bool Bench::stands(const Board& board, const Plan& here, const std::vector<Cut>& fixed) const {
  Plan alone = here;
  alone.cuts.clear();
  for (const Cut& cut : fixed)
    if (cut.board == board.id) alone.cuts.push_back(cut);
  alone.cuts.insert(alone.cuts.end(), here.cuts.begin(), here.cuts.end());
  renumber(alone.cuts);
  return passesAlone(request_, board, alone);
}

// All of it, or what is left without the blanks that do not stand by themselves.
std::optional<Plan> Bench::standingOf(const Board& board, const Plan& here,
                                      const std::vector<Cut>& fixed) const {
  if (stands(board, here, fixed)) return here;
  if (mode_ != Kept::blanks) return std::nullopt;
  std::set<PieceId> broken;
  for (const Blank& blank : here.blanks) {
    std::set<PieceId> own, others;
    for (const Piece& piece : here.pieces)
      (piece.blank == blank.id ? own : others).insert(piece.id);
    if (!stands(board, without(here, others), fixed)) broken.merge(own);
  }
  Plan rest = without(here, broken);
  if (rest.pieces.empty() || !stands(board, rest, fixed)) return std::nullopt;
  return rest;
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

void Bench::addOpen(const Board& board, const CutTree& fixed, const CutTree::Key& key) {
  const Polygons& region = fixed.region(key);
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
  open_.push_back(std::move(open));
}

}  // namespace rackside
