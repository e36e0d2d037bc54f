// SPDX-License-Identifier: GPL-3.0-or-later
// What every plan is given last, however it was made.
#pragma once

#include <string>
#include <vector>

#include "core/plan/planner.h"

namespace rackside {

// What the plan is worth and of what, the wood it uses, bounds no less than that, what is left out
// (without reasons, which explainUnplaced() finds), and remarks: of the rack, of drying, of blanks
// that are small, and `limits`.
void finish(const PlanRequest& request, const PlanOptions& options,
            const std::vector<std::string>& limits, Plan& plan);

}  // namespace rackside
