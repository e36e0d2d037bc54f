// SPDX-License-Identifier: GPL-3.0-or-later
// Planning of parts that may be glued up: in as many strips as make the best whole plan.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

// Is there a part that may be planned in strips? Then makePlans() goes this way.
bool hasPanels(const PlanRequest& request);

// Each panel in a few strips, in more, or in one piece where a board is wide enough: the search
// chooses among all of them at once. A panel is whole or not there. The bound is that of the counts
// tried, all strips of a panel of one width.
Result<std::vector<Plan>> planWithPanels(const PlanRequest& request, const PlanOptions& options,
                                         const PlanChoice& choice, RunControl& control);

}  // namespace rackside
