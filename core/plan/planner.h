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
  std::vector<Board> boards;  // those set aside, sold or reserved are left out by the planner
  std::vector<Part> parts;
  Shop shop;
  ValueMaps worth;
  std::vector<PieceId> pinned;  // pieces of `current` that must stay where they are
  const Plan* current = nullptr;
  std::vector<BoardId> forbidden;  // boards not to be touched; a region is an `avoid` mark
  BoardTones tones = {};           // of boards that strips of a panel may come from; may be empty
};

// mostValue: the greatest worth that the boards can hold. leastStock: place all that can be placed,
// then use the least wood.
enum class PlanGoal { mostValue, leastStock };

// What a plan is judged by; every weight is visible and can be changed.
struct PlanWeights {
  // Worth of a piece = its value · (1 + look · mean worth of its place on the show face).
  double look = 0.5;
  // Value for each unit of price of the boards that are cut into, and, given back, of the useful
  // offcuts at their far ends; the latter no more than the former.
  double stock = 0;
  double offcut = 0;
};

struct PlanOptions {
  double limitSeconds = 10;
  unsigned long long seed = 1;
  PlanGoal goal = PlanGoal::mostValue;
  PlanWeights weights;
  int mostCopiesInBlank = 24;  // of one part, end to end, milled as one; kMostCopiesInBlank at most
  // Cut day: once cuts are made, look for a new place only for what has lost its place, not for
  // what had none before, so that the answer comes at once.
  bool onlyWhatIsLost = false;
  // Called with each better plan as it is found, on the planner's thread.
  std::function<void(const Plan&)> onBetter;

  Status validate() const;
};

// Plans to choose among.
struct PlanChoice {
  int most = 1;  // plans in all
  // Of the pieces of each plan before it, the share that lies on another board.
  double leastElsewhere = 0.3;
  double mostLoss = 0.05;  // share of the best plan's value (least stock: of its stock)

  Status validate() const;
};

// Fails only on input that no plan can be made of (no boards, a part without a size); parts that do
// not fit are reported in Plan::unplaced. Every plan returned has passed checkPlan().
Result<Plan> makePlan(const PlanRequest& request, const PlanOptions& options, RunControl& control);

// The best plan, which has four fifths of the time, and up to choice.most − 1 that really differ;
// fewer when the boards allow no others within the loss, or when it was stopped by hand. Once cuts
// have been made they differ in what is not cut yet. Fails as makePlan() does.
Result<std::vector<Plan>> makePlans(const PlanRequest& request, const PlanOptions& options,
                                    const PlanChoice& choice, RunControl& control);

}  // namespace rackside
