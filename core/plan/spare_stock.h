// SPDX-License-Identifier: GPL-3.0-or-later
// Where each piece that shows could come from once more, should it fail at the saw.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

// One entry for each placed piece that shows: the smallest wood that the plan leaves over and that
// would hold its part, tried with the planner's own fit test; on a board nothing is planned on when
// no offcut will do. One piece is thought to fail at a time.
std::vector<Spare> spareStock(const PlanRequest& request, const Plan& plan);

}  // namespace rackside
