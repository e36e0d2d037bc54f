// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/run/in_strips.h"

#include <algorithm>
#include <set>

#include "core/plan/made_cuts.h"

namespace rackside {
namespace {

// In how many strips the current plan has a part; 1 among them for copies in one piece.
std::set<int> countsNow(const PlanRequest& request, const PartId& part) {
  std::set<int> counts;
  if (!request.current) return counts;
  for (const PlannedPanel& panel : request.current->panels)
    if (panel.part == part) counts.insert(static_cast<int>(panel.strips.size()));
  for (const Piece& piece : request.current->pieces)
    if (piece.part == part && piece.kind == PieceKind::part) counts.insert(1);
  return counts;
}

const Board* boardOf(const PlanRequest& request, const BoardId& id) {
  for (const Board& board : request.boards)
    if (board.id == id) return &board;
  return nullptr;
}

}  // namespace

bool InStrips::serves(const PlanRequest& request) {
  return std::any_of(request.parts.begin(), request.parts.end(), [&](const Part& part) {
    const std::vector<int> counts = stripCounts(part, request.boards, request.shop);
    return counts.size() > 1 || counts[0] > 1;
  });
}

InStrips::InStrips(const Reduced& above) : above_(above.request) {
  below_.request = above_;
  below_.request.parts.clear();
  for (const Part& part : above_.parts) addWays(part);
  if (!above_.current) return;
  current_ = currentInStrips();
  below_.request.current = &current_;
}

// The numbers of strips that are tried, and those in which it is planned already. On cut day only
// these: what is cut is no longer the search's to choose.
void InStrips::addWays(const Part& part) {
  std::vector<int> counts = stripCounts(part, above_.boards, above_.shop);
  const std::set<int> now = mayBeGluedUp(part) ? countsNow(above_, part.id) : std::set<int>{};
  if (!now.empty() && hasMadeCuts(*above_.current)) counts.clear();
  for (const int count : now)
    if (std::find(counts.begin(), counts.end(), count) == counts.end()) counts.push_back(count);
  WantedPanel panel;
  panel.copies = part.copies;
  for (PartWay& way : waysOf(part, counts, above_.boards, above_.shop)) {
    panel.ways.push_back({static_cast<int>(below_.request.parts.size()), way.strips, 0});
    below_.request.parts.push_back(way.strip);
    ways_.push_back(std::move(way));
  }
  if (panel.ways.size() > 1 || panel.ways[0].strips > 1) below_.panels.push_back(std::move(panel));
}

Plan InStrips::currentInStrips() const {
  Plan current = *above_.current;
  current.panels.clear();
  for (Piece& piece : current.pieces) {
    if (piece.kind != PieceKind::panelStrip) continue;
    const auto panel = std::find_if(
        above_.current->panels.begin(), above_.current->panels.end(),
        [&](const PlannedPanel& p) { return p.part == piece.part && p.copy == piece.copy; });
    const Board* board = boardOf(above_, piece.board);
    if (panel == above_.current->panels.end() || !board) continue;
    const int strips = static_cast<int>(panel->strips.size());
    for (const PartWay& way : ways_)
      if (way.part == piece.part && way.strips == strips &&
          way.species == woodKey(board->species, above_.shop.ownSpecies)) {
        piece.part = way.strip.id;
        piece.kind = PieceKind::part;
        piece.copy = (piece.copy - 1) * strips + piece.strip;
        break;
      }
  }
  return current;
}

void InStrips::raise(Plan& plan) const {
  intoPanels(above_, ways_, plan);
}

std::string InStrips::limits() const {
  return "The bound is for the numbers of strips that were tried, all strips of a panel alike.";
}

}  // namespace rackside
