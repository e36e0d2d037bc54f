// SPDX-License-Identifier: GPL-3.0-or-later
// Why a part was left out: the board that comes nearest, and what it is short of.
#pragma once

#include <vector>

#include "core/plan/layout.h"

namespace rackside {

// Adds an Unplaced for every copy of every part that is not in the plan.
void explainUnplaced(const PlanRequest& request, const Job& job,
                     const std::vector<const BoardMap*>& maps, Plan& plan);

// The same for a plan that is still being bettered, without looking for reasons.
void markUnplaced(const PlanRequest& request, Plan& plan);

}  // namespace rackside
