// SPDX-License-Identifier: GPL-3.0-or-later
// Why a part was left out: who has the wood that it would fit on, or which board comes nearest and
// what it is short of.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

// Sets plan.unplaced: one entry for every copy of every part that is not in the plan. Each part is
// tried alone on the wood that is not sawn yet.
void explainUnplaced(const PlanRequest& request, Plan& plan);

// Adds the same for a plan that is still being bettered, without looking for reasons.
void markUnplaced(const PlanRequest& request, Plan& plan);

}  // namespace rackside
