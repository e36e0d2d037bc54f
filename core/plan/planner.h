// SPDX-License-Identifier: GPL-3.0-or-later
// The one entry to planning.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/base/run_control.h"
#include "core/job/part.h"
#include "core/job/shop.h"
#include "core/plan/plan.h"
#include "core/plan/value_map.h"
#include "core/wood/board.h"

namespace rackside {

struct PlanRequest {
  std::vector<Board> boards;  // those set apart are left out by the planner
  std::vector<Part> parts;
  Shop shop;
  ValueMaps worth;
  std::vector<PieceId> pinned;  // pieces of `current` that must stay where they are
  const Plan* current = nullptr;
};

struct PlanOptions {
  double limitSeconds = 10;
  unsigned long long seed = 1;
  // Called with each better plan as it is found, on the planner's thread.
  std::function<void(const Plan&)> onBetter;

  Status validate() const;
};

// Fails only on input that no plan can be made of (no boards, a part without a size); parts that do
// not fit are reported in Plan::unplaced. Every plan returned has passed checkPlan().
Result<Plan> makePlan(const PlanRequest& request, const PlanOptions& options, RunControl& control);

}  // namespace rackside
