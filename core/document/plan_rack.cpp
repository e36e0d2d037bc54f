// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document/plan_rack.h"

#include <exception>

#include "core/document/pinned.h"
#include "core/plan/default_weights.h"
#include "core/plan/made_cuts.h"
#include "core/plan/remedies.h"
#include "core/plan/spare_stock.h"

namespace rackside {
namespace {

std::optional<Plan> planToStartFrom(const Rack& rack, bool afresh) {
  if (!rack.plan || !afresh) return rack.plan;
  if (!hasMadeCuts(*rack.plan)) return std::nullopt;
  return onlyWhatIsCut(*rack.plan);
}

PlanRequest requestFor(const Rack& rack, const RackPlanOptions& options,
                       const std::optional<Plan>& start) {
  PlanRequest request;
  request.boards = rack.boards;
  request.parts = rack.parts;
  request.shop = rack.shop;
  request.forbidden = options.forbidden;
  if (!start) return request;
  request.current = &*start;
  request.pinned = pinnedPieces(*start);
  for (const PieceId& id : options.pinned)
    if (!isPinned(*start, id)) request.pinned.push_back(id);
  return request;
}

// What is no part of a search.
void complete(const PlanRequest& request, const BoardPictures* pictures, Plan& plan) {
  addRemedies(request, plan);
  if (pictures) pictures->orderPanels(request.boards, plan);
  plan.spares = spareStock(request, plan);
  if (!request.current) return;
  for (const PieceId& pin : pinnedPieces(*request.current))
    plan = withPin(std::move(plan), pin, true);
}

}  // namespace

RackPlanOptions planOptionsFor(const Rack& rack) {
  RackPlanOptions options;
  options.planning.weights = weightsFor(rack.shop, rack.boards, rack.parts);
  return options;
}

Result<std::vector<Plan>> planRack(const Rack& rack, const RackPlanOptions& options,
                                   const BoardPictures* pictures, RunControl& control) {
  if (rack.boards.empty())
    return Error{"The rack holds no boards: scan some first (rackside scan)."};
  if (rack.parts.empty())
    return Error{"The rack has no parts list: import one first (rackside parts import)."};
  const std::optional<Plan> start = planToStartFrom(rack, options.afresh);
  PlanRequest request = requestFor(rack, options, start);
  PlanOptions planning = options.planning;
  if (planning.onlyWhatIsLost && start) planning.seed = start->seed;
  try {
    if (pictures) pictures->readLooks(request, control);
    control.setLimit(planning.limitSeconds);
    Result<std::vector<Plan>> plans = makePlans(request, planning, options.choice, control);
    if (plans)
      for (Plan& plan : plans.value()) complete(request, pictures, plan);
    return plans;
  } catch (const std::exception& fault) {
    return Error{std::string("The planner could not go on (") + fault.what() +
                 "). The plan stays as it was; please report this."};
  }
}

}  // namespace rackside
