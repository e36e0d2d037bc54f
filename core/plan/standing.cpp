// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/standing.h"

#include <set>

namespace rackside {
namespace {

// Rules about the plan as a whole, which a part of it cannot keep.
bool isOfWholePlan(const std::string& rule) {
  static const std::set<std::string> rules{"accounted", "idle", "made", "pins", "value"};
  return rules.count(rule) > 0;
}

std::vector<Breach> breachesAlone(const PlanRequest& request, const Board& board,
                                  const Plan& here) {
  PlanRequest alone;
  alone.boards = {board};
  alone.parts = request.parts;
  alone.shop = request.shop;
  alone.forbidden = request.forbidden;
  auto breaches = checkPlan(alone, here);
  std::erase_if(breaches, [](const Breach& b) { return isOfWholePlan(b.rule); });
  return breaches;
}

}  // namespace

bool passesAlone(const PlanRequest& request, const Board& board, const Plan& here) {
  return breachesAlone(request, board, here).empty();
}

std::vector<Breach> breachesOn(const PlanRequest& request, const Plan& plan, const Board& board) {
  Plan here;
  for (const Blank& b : plan.blanks)
    if (b.board == board.id) here.blanks.push_back(b);
  for (const Piece& p : plan.pieces)
    if (p.board == board.id) here.pieces.push_back(p);
  for (const Cut& c : plan.cuts)
    if (c.board == board.id) here.cuts.push_back(c);
  return breachesAlone(request, board, here);
}

bool standsOn(const PlanRequest& request, const Plan& plan, const Board& board) {
  return breachesOn(request, plan, board).empty();
}

}  // namespace rackside
