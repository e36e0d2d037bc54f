// SPDX-License-Identifier: GPL-3.0-or-later
// Planning of parts that are too small to be machined alone: some go in gangs (core/plan/gangs.h).
#pragma once

#include "core/plan/planner.h"
#include "core/plan/search/demand.h"

namespace rackside {

// makePlans() for a request without made cuts; `panels` are parts of it in several ways, which are
// not ganged. Gangs of the current plan stay together,
// pins and all; copies that lie alone there stay alone; others may be ganged. Gangs that found no
// place are dissolved and planned once more. Without gangs it is one run of the planner.
Result<std::vector<Plan>> planWithGangs(const PlanRequest& request, const PlanOptions& options,
                                        const PlanChoice& choice,
                                        const std::vector<WantedPanel>& panels,
                                        RunControl& control);

}  // namespace rackside
