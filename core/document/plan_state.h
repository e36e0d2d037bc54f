// SPDX-License-Identifier: GPL-3.0-or-later
// Does the rack's stored plan still hold, and what is said when it does not.
#pragma once

#include <string>

#include "core/document/rack.h"
#include "core/plan/plan_basis.h"

namespace rackside {

// Of the rack as it is; a rack without a plan has nothing that could not hold.
PlanState planState(const Rack& rack);

// "The plan no longer holds: on board 7, …. Plan again." For a state that does not hold.
std::string brokenWords(const PlanState& state);
// "Since the plan was made, board 7 was changed; …" For one where something was changed.
std::string changedWords(const PlanState& state);

}  // namespace rackside
