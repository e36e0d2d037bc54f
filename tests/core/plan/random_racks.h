// SPDX-License-Identifier: GPL-3.0-or-later
// Racks and parts lists from a seed: rough boards with two faces, taper, crook, waney edges, warp
// and marks; parts whose area is a chosen share of the clear wood; a figure map as a formula.
#pragma once

#include "core/plan/planner.h"

namespace rackside::testing {

struct RackSpec {
  int boards = 10;
  int pieces = 50;
  unsigned long long seed = 1;
  double areaShare = 0.9;  // of the parts' finished area in the clear wood of face A
  bool looks = true;       // figure maps, and parts that want a look
  bool panels = false;     // parts that may be glued up
  double leastLengthMm = 1800, greatestLengthMm = 3600;  // of boards
};

PlanRequest randomRack(const RackSpec& spec);

// Whether the checker finds the plan to break the rule.
bool breaks(const PlanRequest& request, const Plan& plan, const std::string& rule);

// Wood of face A inside the sure outline and outside every mark, mm².
double clearAreaMm2(const PlanRequest& request);

}  // namespace rackside::testing
