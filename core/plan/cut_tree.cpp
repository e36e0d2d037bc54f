// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/cut_tree.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

Segment reversed(const Segment& s) {
  return {s.to, s.from};
}

double leastX(const Polygons& shape) {
  double x = 1e300;
  for (const Polygon& p : shape) x = std::min(x, bounds(p).x0);
  return x;
}

}  // namespace

Segment borderOf(const Cut& cut, bool left) {
  if (left) return cut.line;
  const Point along = cut.line.to - cut.line.from;
  const double length = norm(along);
  if (length <= 0) return cut.line;
  const Point toRight{along.y / length * cut.kerfMm, -along.x / length * cut.kerfMm};
  return {cut.line.from + toRight, cut.line.to + toRight};
}

bool isCrosswise(const Cut& cut) {
  const Point d = cut.line.to - cut.line.from;
  return std::abs(d.y) > std::abs(d.x);
}

bool isLeftOf(const Segment& line, Point p) {
  return cross(line.to - line.from, p - line.from) > 0;
}

Point middleOf(const Segment& s) {
  return 0.5 * (s.from + s.to);
}

bool holdsBlank(const Polygon& piece, const Plan& plan, const BoardId& board) {
  return std::any_of(plan.blanks.begin(), plan.blanks.end(), [&](const Blank& b) {
    const Polygon rough = b.roughOutline();
    return b.board == board && contains(piece, 0.5 * (rough[0] + rough[2]));
  });
}

CutTree::CutTree(const Board& board, const Plan& plan) {
  for (const Cut& c : plan.cuts)
    if (c.board == board.id) cuts_.push_back(&c);
  std::stable_sort(cuts_.begin(), cuts_.end(),
                   [](const Cut* a, const Cut* b) { return a->order < b->order; });
  regions_[{"", true}] = {board.outline.polygon()};
  for (const Cut* cut : cuts_) {
    const Key key = parentOf(*cut);
    const Polygons whole = regions_[key];
    dividedBy_[key] = cut;
    regions_[{cut->id.text, true}] = keepLeftOf(whole, cut->line);
    regions_[{cut->id.text, false}] = keepLeftOf(whole, reversed(borderOf(*cut, false)));
  }
}

const Cut* CutTree::find(const std::string& id) const {
  for (const Cut* c : cuts_)
    if (c->id.text == id) return c;
  return nullptr;
}

const Polygons& CutTree::region(const Key& key) const {
  static const Polygons nothing;
  const auto it = regions_.find(key);
  return it == regions_.end() ? nothing : it->second;
}

CutTree::Key CutTree::parentOf(const Cut& cut) const {
  return cut.parent ? Key{cut.parent->text, cut.leftOfParent} : Key{"", true};
}

std::vector<std::pair<const Cut*, bool>> CutTree::ancestors(const Cut& cut) const {
  std::vector<std::pair<const Cut*, bool>> up;
  const Cut* at = &cut;
  while (at && at->parent && up.size() <= cuts_.size()) {
    const Cut* parent = find(at->parent->text);
    if (!parent) break;
    up.emplace_back(parent, at->leftOfParent);
    at = parent;
  }
  return up;
}

bool CutTree::overFullWidth(const Cut& cut) const {
  if (!isCrosswise(cut)) return false;
  const auto up = ancestors(cut);
  return std::all_of(up.begin(), up.end(), [](const auto& a) { return isCrosswise(*a.first); });
}

bool CutTree::isLeaf(const Key& key) const {
  return !dividedBy_.contains(key);
}

std::vector<CutTree::Key> CutTree::leaves() const {
  std::vector<Key> keys;
  for (const auto& [key, shape] : regions_)
    if (isLeaf(key) && !shape.empty()) keys.push_back(key);
  return keys;
}

std::vector<CutTree::Key> CutTree::sections() const {
  std::vector<Key> keys;
  for (const auto& [key, shape] : regions_) {
    const Cut* made = find(key.first);
    if (made && !overFullWidth(*made)) continue;
    const auto divided = dividedBy_.find(key);
    if (divided != dividedBy_.end() && overFullWidth(*divided->second)) continue;
    if (!shape.empty()) keys.push_back(key);
  }
  std::sort(keys.begin(), keys.end(),
            [&](const Key& a, const Key& b) { return leastX(region(a)) < leastX(region(b)); });
  return keys;
}

CutTree::Key CutTree::sectionOf(const Cut& cut) const {
  if (overFullWidth(cut)) return {"", true};
  const Cut* at = &cut;
  for (const auto& [above, left] : ancestors(cut)) {
    if (overFullWidth(*above)) return {above->id.text, at->leftOfParent};
    at = above;
  }
  return {"", true};
}

}  // namespace rackside
