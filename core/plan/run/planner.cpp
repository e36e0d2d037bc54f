// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/planner.h"

#include <string>

#include "core/job/parts_limits.h"
#include "core/job/saw_rules.h"
#include "core/plan/blank_kind.h"
#include "core/plan/left_over.h"
#include "core/plan/plan_basis.h"
#include "core/plan/run/rounds.h"
#include "core/wood/board_limits.h"

namespace rackside {
namespace {

Status validate(const PlanRequest& request) {
  if (request.boards.empty())
    return Error{"There is no board on the rack yet: scan one before planning."};
  if (const Status shop = validate(request.shop); !shop) return shop.error();
  if (const Status rules = validateSawRules(request.shop); !rules) return rules.error();
  if (const Status parts = validate(request.parts); !parts) return parts.error();
  for (const Board& board : request.boards) {
    if (board.outline.vertices.size() < 3)
      return Error{"Board " + board.name + " has no outline: scan or draw it before planning."};
    if (const Status sound = validate(board); !sound) return sound.error();
    if (mayBeCut(request, board) && !isSimple(board.outline.polygon()))
      return Error{"The outline of board " + board.name +
                   " crosses itself: draw it round without crossing, or set the board apart."};
  }
  return success();
}

}  // namespace

Status PlanOptions::validate() const {
  if (!(limitSeconds > 0)) return Error{"The time for planning must be more than 0 seconds."};
  if (!(weights.look >= 0 && weights.look <= 1))
    return Error{"The weight of the look must be from 0 to 1."};
  if (!(weights.stock >= 0 && weights.offcut >= 0 && weights.offcut <= weights.stock))
    return Error{"The weight of the stock must be 0 or more, that of offcuts from 0 to it."};
  if (mostCopiesInBlank < 1 || mostCopiesInBlank > kMostCopiesInBlank)
    return Error{"A blank holds from 1 to " + std::to_string(kMostCopiesInBlank) + " copies."};
  return success();
}

Status PlanChoice::validate() const {
  if (most < 1 || most > 9) return Error{"From 1 to 9 plans can be asked for."};
  if (!(leastElsewhere > 0 && leastElsewhere <= 1))
    return Error{"The share of pieces that lie elsewhere must be above 0 and at most 1."};
  if (!(mostLoss >= 0 && mostLoss < 1))
    return Error{"The value that another plan may lose must be from 0 to below 1."};
  return success();
}

Result<Plan> makePlan(const PlanRequest& request, const PlanOptions& options, RunControl& control) {
  Result<std::vector<Plan>> plans = makePlans(request, options, {}, control);
  if (!plans) return plans.error();
  return std::move(plans.value().front());
}

Result<std::vector<Plan>> makePlans(const PlanRequest& request, const PlanOptions& options,
                                    const PlanChoice& choice, RunControl& control) {
  if (const Status ok = options.validate(); !ok) return ok.error();
  if (const Status ok = choice.validate(); !ok) return ok.error();
  if (const Status ok = validate(request); !ok) return ok.error();
  Result<std::vector<Plan>> plans = Rounds(request, options, choice, control).make();
  if (!plans) return plans;
  const PlanBasis basis = basisOf(request.boards, request.parts, request.shop);
  for (Plan& plan : plans.value()) noteBasis(plan, basis);
  return plans;
}

}  // namespace rackside
