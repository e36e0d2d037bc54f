// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/board_work.h"

#include <algorithm>
#include <cmath>

#include "app/sheets/cut_words.h"
#include "core/plan/cut_tree.h"

namespace rackside::sheets {
namespace {

std::string codeOf(size_t index) {
  std::string code(1, char('A' + index % 26));
  return index < 26 ? code : std::string(1, char('A' + index / 26 - 1)) + code;
}

Point centreOf(const Polygon& p) {
  const Rect b = bounds(p);
  return {(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2};
}

const Blank* findBlank(const Plan& plan, const BlankId& id) {
  for (const Blank& b : plan.blanks)
    if (b.id == id) return &b;
  return nullptr;
}

std::vector<PieceLine> pieceLines(const Rack& rack, const Board& board) {
  std::vector<PieceLine> lines;
  for (const Piece& p : rack.plan->pieces)
    if (p.board == board.id)
      lines.push_back({"", &p, findBlank(*rack.plan, p.blank), rack.findPart(p.part)});
  std::stable_sort(lines.begin(), lines.end(), [](const PieceLine& a, const PieceLine& b) {
    const Point p = centreOf(a.piece->outline), q = centreOf(b.piece->outline);
    return std::pair(p.x, p.y) < std::pair(q.x, q.y);
  });
  for (size_t i = 0; i < lines.size(); ++i) lines[i].code = codeOf(i);
  return lines;
}

// The end that the first crosscut of the full width makes clean, when it throws an end away.
void findFreshEnd(const CutTree& tree, BoardWork& work) {
  for (const Cut* cut : tree.cuts()) {
    if (!tree.overFullWidth(*cut)) continue;
    if (cut->wasteIsLeft == cut->wasteIsRight) return;
    const bool keptIsLeft = cut->wasteIsRight;
    const Segment border = borderOf(*cut, keptIsLeft);
    const Point x = middleOf(border);
    work.freshCut = cut;
    work.freshXMm = x.x;
    // The kept wood lies to the right of a fresh left end.
    work.freshIsLeft = isLeftOf(border, {x.x + 1, x.y}) == keptIsLeft;
    return;
  }
}

std::vector<Section> numberedSections(const CutTree& tree, const BoardWork& work,
                                      std::vector<CutTree::Key>& keys) {
  keys = tree.sections();
  if (!work.freshIsLeft) std::reverse(keys.begin(), keys.end());
  std::vector<Section> sections;
  std::vector<CutTree::Key> kept;
  for (const auto& key : keys) {
    Rect all{1e300, 1e300, -1e300, -1e300};
    for (const Polygon& p : tree.region(key)) {
      all.x0 = std::min(all.x0, bounds(p).x0);
      all.x1 = std::max(all.x1, bounds(p).x1);
    }
    // What the trim cut off is not a section to work on.
    const bool cutOff =
        work.freshCut && (work.freshIsLeft ? all.x1 <= work.freshXMm : all.x0 >= work.freshXMm);
    if (cutOff) continue;
    kept.push_back(key);
    sections.push_back({int(sections.size()) + 1, all.x0, all.x1});
  }
  keys = kept;
  return sections;
}

bool holdsBlank(const Polygons& shape, const std::vector<const Blank*>& blanks) {
  return std::any_of(blanks.begin(), blanks.end(), [&](const Blank* b) {
    const Point q = centreOf(b->roughOutline());
    return std::any_of(shape.begin(), shape.end(),
                       [&](const Polygon& p) { return contains(p, q); });
  });
}

void sortLeaves(const CutTree& tree, const Rack& rack, const Board& board, BoardWork& work) {
  std::vector<const Blank*> blanks;
  Polygons used;
  for (const Blank& b : rack.plan->blanks)
    if (b.board == board.id) {
      blanks.push_back(&b);
      used = unite(used, {b.roughOutline()});
    }
  for (const auto& key : tree.leaves()) {
    const Polygons& shape = tree.region(key);
    if (holdsBlank(shape, blanks)) {
      for (Polygon& p : subtract(shape, used)) work.waste.push_back(std::move(p));
      continue;
    }
    for (const Polygon& p : shape)
      (worthKeeping(p, rack.shop) ? work.offcuts : work.waste).push_back(p);
  }
}

}  // namespace

std::string PieceLine::title() const {
  std::string text = (part ? part->name : piece->part.text) + " " + std::to_string(piece->copy);
  if (piece->kind == PieceKind::panelStrip) text += " strip " + std::to_string(piece->strip);
  return text;
}

BoardWork boardWork(const Rack& rack, const Board& board, const LengthStyle& style) {
  BoardWork work;
  if (!rack.plan) return work;
  const CutTree tree(board, *rack.plan);
  work.pieces = pieceLines(rack, board);
  findFreshEnd(tree, work);
  std::vector<CutTree::Key> sectionKeys;
  work.sections = numberedSections(tree, work, sectionKeys);
  for (const Cut* cut : tree.cuts()) {
    CutStep step = cutStep(*cut, tree, board, work, rack.shop, style);
    const auto at = std::find(sectionKeys.begin(), sectionKeys.end(), tree.sectionOf(*cut));
    if (!tree.overFullWidth(*cut) && at != sectionKeys.end())
      step.section = int(at - sectionKeys.begin()) + 1;
    for (const PieceLine& line : work.pieces)
      if (line.blank && line.blank->lastCut == cut->id) step.freed.push_back(line.code);
    work.steps.push_back(std::move(step));
  }
  if (!work.steps.empty()) sortLeaves(tree, rack, board, work);
  return work;
}

}  // namespace rackside::sheets
