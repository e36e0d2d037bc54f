// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document/plan_summary.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/plan/blank_kind.h"
#include "core/plan/slice.h"
#include "core/trade/rack_totals.h"

namespace rackside {
namespace {

constexpr double kMm2PerM2 = 1e6;

double lookWeight(const Plan& plan) {
  for (const ScoreTerm& term : plan.score)
    if (term.name == "looks") return term.weight;
  return 0;
}

// A piece's worth is its value · (1 + weight · look).
void findWorstLook(const Rack& rack, const Plan& plan, PlanSummary& summary) {
  const double weight = lookWeight(plan);
  if (!(weight > 0)) return;
  for (const Piece& piece : plan.pieces) {
    const Part* part = rack.findPart(piece.part);
    if (!part || part->look == Look::any) continue;
    const double value = pieceValue(plan, *part, piece);
    if (!(value > 0)) continue;
    const double look = (piece.worth / value - 1) / weight;
    if (summary.worstLook && *summary.worstLook <= look) continue;
    summary.worstLook = look;
    summary.worstPiece = part->name + " " + std::to_string(piece.copy);
  }
}

void countBoards(const Rack& rack, const Plan& plan, PlanSummary& summary) {
  std::set<BoardId> opened;
  for (const Piece& piece : plan.pieces) opened.insert(piece.board);
  summary.boards = static_cast<int>(opened.size());
  Rack boards;
  boards.shop = rack.shop;
  for (const Board& board : rack.boards)
    if (opened.count(board.id)) boards.boards.push_back(board);
  for (Board& board : boards.boards) {
    summary.boardsM2 += area({board.outline.polygon()}) / kMm2PerM2;
    board.cutUp = false;  // it was there to be opened
  }
  for (const LineTally& line : tallyOf(tallyLines(boards), boards.shop)) {
    summary.boardFeet += line.boardFeet;
    summary.price += line.price;
  }
}

int fenceSettingsOf(const Plan& plan) {
  std::set<std::pair<BoardId, long>> widths;
  for (const Blank& blank : plan.blanks)
    widths.insert({blank.board, std::lround(blank.roughWidthMm)});
  return static_cast<int>(widths.size());
}

}  // namespace

PlanSummary summaryOf(const Rack& rack, const Plan& plan) {
  PlanSummary summary;
  summary.pieces = static_cast<int>(plan.pieces.size());
  for (const Part& part : rack.parts) summary.wanted += part.copies;
  countBoards(rack, plan, summary);
  summary.yieldShare = yieldOf(rack, plan).yieldShare();
  for (const Cut& cut : plan.cuts) ++(isJointed(cut) ? summary.edgesToJoint : summary.cuts);
  summary.fenceSettings = fenceSettingsOf(plan);
  findWorstLook(rack, plan, summary);
  return summary;
}

}  // namespace rackside
