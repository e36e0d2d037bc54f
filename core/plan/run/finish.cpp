// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/run/finish.h"

#include <algorithm>

#include "core/plan/drying.h"
#include "core/plan/gangs.h"
#include "core/plan/score.h"
#include "core/plan/stock.h"
#include "core/plan/unplaced.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

void remarkOnBoards(const PlanRequest& request, Plan& plan) {
  for (const Board& board : request.boards) {
    if (board.isSpokenFor())
      plan.remarks.push_back("Board " + board.name + " is " + stateWords(board) + ": not used.");
    for (const Face face : {Face::A, Face::B})
      if (!board.isSpokenFor() && !board.cutUp && !lookedAt(board, face))
        plan.remarks.push_back("Face " + std::string(name(face)) + " of board " + board.name +
                               " was never photographed: no part shows on it.");
  }
}

// Of the boards that the plan cuts into.
void remarkOnDrying(const PlanRequest& request, Plan& plan) {
  std::vector<const Board*> used;
  for (const Board& board : request.boards)
    if (std::any_of(plan.pieces.begin(), plan.pieces.end(),
                    [&](const Piece& p) { return p.board == board.id; }))
      used.push_back(&board);
  for (std::string& remark : dryingRemarks(used, request.shop))
    plan.remarks.push_back(std::move(remark));
}

}  // namespace

void finish(const PlanRequest& request, const PlanOptions& options,
            const std::vector<std::string>& limits, Plan& plan) {
  giveScore(request, options.weights, plan);
  plan.bound = std::max(plan.bound, plan.value);
  plan.gridBound = std::max(plan.gridBound, plan.value);
  plan.stockMm2 = 0;
  for (const Board& board : request.boards)
    plan.stockMm2 += stockUsedMm2(board, plan, request.shop);
  plan.stockBound = std::min(plan.stockBound, plan.stockMm2);
  plan.seed = options.seed;
  plan.unplaced.clear();
  markUnplaced(request, plan);
  plan.remarks.clear();
  remarkOnBoards(request, plan);
  remarkOnDrying(request, plan);
  plan.remarks.insert(plan.remarks.end(), limits.begin(), limits.end());
  remarkOnSafeSizes(request.shop, plan);
}

}  // namespace rackside
