// SPDX-License-Identifier: GPL-3.0-or-later
// What a plan's value is made of: the parts, how they look, the stock cut into, the offcuts.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

// The shop's own.
PlanWeights weightsOf(const Shop& shop);

// What a mm² of a board's face costs: its price by volume, so that thick stock is dear; 0 without a
// price.
double pricePerMm2(const Board& board);

// What a board that is cut into adds to a plan's value (0 or less): its price at the stock weight,
// less what a useful offcut at its far end is worth at the offcut weight.
struct StockCharge {
  double ofBoard = 0;   // per mm² of the whole board
  double ofOffcut = 0;  // per mm² of the far offcut, given back
  bool any() const { return ofBoard > 0 || ofOffcut > 0; }
  double value(double boardMm2, double usedMm2) const {
    return ofOffcut * (boardMm2 - usedMm2) - ofBoard * boardMm2;
  }
};
StockCharge stockChargeOf(const Board& board, const PlanWeights& weights);

// The terms of a plan as it is, which add up to its value.
std::vector<ScoreTerm> scoreOf(const PlanRequest& request, const PlanWeights& weights,
                               const Plan& plan);

// Sets plan.score, and plan.value to what its terms add up to, in their order.
void giveScore(const PlanRequest& request, const PlanWeights& weights, Plan& plan);

}  // namespace rackside
