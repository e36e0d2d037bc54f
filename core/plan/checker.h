// SPDX-License-Identifier: GPL-3.0-or-later
// Checks a plan from the geometry alone, sharing no code with the planner: one named rule each.
#pragma once

#include <string>
#include <vector>

#include "core/plan/planner.h"

namespace rackside {

struct Breach {
  std::string rule;     // the predicate's name
  std::string message;  // which piece or cut, and how, in plain words
};

// Empty when the plan holds.
std::vector<Breach> checkPlan(const PlanRequest& request, const Plan& plan);

}  // namespace rackside
