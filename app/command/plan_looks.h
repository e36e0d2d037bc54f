// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "core/plan/planner.h"

namespace rackside::command {

// What the wood of a rack's boards looks like, for parts that want a look; remarks as messages.
void addLooks(const std::string& rackFolder, PlanRequest& request);

}  // namespace rackside::command
