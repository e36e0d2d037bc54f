// SPDX-License-Identifier: GPL-3.0-or-later
// What of an earlier plan still stands after marks, parts or the shop have changed.
#pragma once

#include "core/plan/checker.h"
#include "core/plan/planner.h"

namespace rackside {

// Does `here`, all of it on that board, pass the checker but for the rules about whole plans?
bool passesAlone(const PlanRequest& request, const Board& board, const Plan& here);

// What the checker says against all that `plan` has on the board, but for the rules about whole
// plans.
std::vector<Breach> breachesOn(const PlanRequest& request, const Plan& plan, const Board& board);

// Does all that `plan` has on the board pass the checker? True for a board with nothing on it.
bool standsOn(const PlanRequest& request, const Plan& plan, const Board& board);

}  // namespace rackside
