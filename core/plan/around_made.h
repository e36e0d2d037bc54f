// SPDX-License-Identifier: GPL-3.0-or-later
// Planning on cut day. What has been sawn stays sawn: pieces that are free are kept, so is all that
// still stands in a piece of wood that is half cut; what no longer stands, after a defect was found
// or a cut went wrong, is planned anew, each piece of wood on the bench as a board of its own.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

// makePlans() for a request whose current plan has cuts that were made: what is cut is alike in all
// of them. To plan anew whatever is not sawn yet, standing or not, give onlyWhatIsCut() as the
// current plan.
Result<std::vector<Plan>> planAroundMade(const PlanRequest& request, const PlanOptions& options,
                                         const PlanChoice& choice, RunControl& control);

}  // namespace rackside
