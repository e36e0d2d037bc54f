// SPDX-License-Identifier: GPL-3.0-or-later
// The rule about panels glued up from strips.
#include <algorithm>
#include <cmath>
#include <set>

#include "core/plan/checker_rules.h"

namespace rackside::checking {
namespace {

const Piece* findPiece(const Scene& s, const PieceId& id) {
  for (const Piece& p : s.plan.pieces)
    if (p.id == id) return &p;
  return nullptr;
}

// A panel is made in one of the three least numbers of strips that its widths allow: the bound is
// for those.
bool isTried(const Part& part, size_t strips, double glueMm) {
  constexpr int kMostNumbers = 3;
  int fewer = 0;
  for (size_t n = 2; n < strips; ++n) {
    const double joints = 2 * glueMm * static_cast<double>(n - 1);
    const double each = (part.widthMm + joints) / static_cast<double>(n);
    if (each >= part.glueUp.leastStripMm && each <= part.glueUp.greatestStripMm) ++fewer;
  }
  return fewer < kMostNumbers;
}

// What is wrong with one panel; empty when nothing is.
std::string faultOf(const Scene& s, const PlannedPanel& panel, const Part& part) {
  if (!part.glueUp.allowed) return "is of a part that may not be glued up";
  if (panel.copy < 1 || panel.copy > part.copies) return "is more than was asked for";
  if (panel.strips.size() < 2) return "is of one strip";
  const double glue = s.request.shop.glueLineAllowanceMm;
  if (!isTried(part, panel.strips.size(), glue)) return "is in more strips than are planned";
  double width = 0;
  std::set<std::string> species;
  for (size_t i = 0; i < panel.strips.size(); ++i) {
    const Piece* strip = findPiece(s, panel.strips[i]);
    if (!strip || strip->kind != PieceKind::panelStrip || strip->part != panel.part ||
        strip->copy != panel.copy || strip->strip != static_cast<int>(i) + 1)
      return "does not have its strips in order";
    if (strip->widthMm < part.glueUp.leastStripMm - kSameMm ||
        strip->widthMm > part.glueUp.greatestStripMm + kSameMm)
      return "has a strip that is too narrow or too wide for it";
    if (std::abs(strip->widthMm - findPiece(s, panel.strips[0])->widthMm) > kSameMm)
      return "has strips of several widths";
    width += strip->widthMm;
    species.insert(woodKey(s.boards.at(strip->board)->species, s.request.shop.ownSpecies));
  }
  // Each joint takes the allowance off two edges.
  width -= 2 * glue * static_cast<double>(panel.strips.size() - 1);
  if (std::abs(width - part.widthMm) > kSameMm) return "does not come out at its width";
  if (species.size() > 1) return "is of more than one species";
  return {};
}

}  // namespace

void rulePanel(const Scene& s, const Report& report) {
  std::set<PieceId> listed;
  std::set<std::pair<PartId, int>> panels;
  for (const PlannedPanel& panel : s.plan.panels) {
    const auto part = s.parts.find(panel.part);
    if (part == s.parts.end()) {
      report("a panel is of a part that is not wanted");
      continue;
    }
    std::string name = "the panel ";
    name += part->second->name;
    name += " " + std::to_string(panel.copy);
    if (!panels.insert({panel.part, panel.copy}).second) report(name + " is planned twice");
    if (const std::string fault = faultOf(s, panel, *part->second); !fault.empty())
      report(name + (" " + fault));
    for (const PieceId& id : panel.strips)
      if (!listed.insert(id).second) report(name + " has a strip twice");
  }
  for (const Piece& piece : s.plan.pieces) {
    if (piece.kind == PieceKind::panelStrip && !listed.count(piece.id))
      report(nameOf(s, piece) + " is a strip of no panel");
    if (piece.kind == PieceKind::part && panels.count({piece.part, piece.copy}))
      report(nameOf(s, piece) + " is planned in one piece and as a panel");
  }
}

}  // namespace rackside::checking
