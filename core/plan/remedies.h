// SPDX-License-Identifier: GPL-3.0-or-later
// What would make a part fit that was left out. Every remedy has been tried: the planner's own fit
// test found a place on that board with that one rule relaxed and all others as they are.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

// Adds remedies to the plan's unplaced parts. A part that no board of the rack would hold is tried
// on whole boards; one that other parts crowded out on what the plan leaves over, and the nearest
// miss is told of that. In Remedy::words, {} stands for byMm.
void addRemedies(const PlanRequest& request, Plan& plan);

}  // namespace rackside
