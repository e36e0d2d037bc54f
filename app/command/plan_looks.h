// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "core/plan/planner.h"

namespace rackside::command {

// What the wood of a rack's boards looks like, for parts that want a look or may be glued up;
// remarks as messages.
void addLooks(const std::string& rackFolder, PlanRequest& request);

// The strips of the plan's panels in the order that shows their seams least.
void orderPanels(const std::string& rackFolder, const PlanRequest& request, Plan& plan);

}  // namespace rackside::command
