// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/planner.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <memory>
#include <set>

#include "core/plan/area_bound.h"
#include "core/plan/checker.h"
#include "core/plan/plain_planner.h"
#include "core/plan/plan_writer.h"
#include "core/plan/unplaced.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

Status validate(const PlanRequest& request) {
  if (request.boards.empty())
    return Error{"There is no board on the rack yet: scan one before planning."};
  if (const Status shop = validate(request.shop); !shop) return shop.error();
  for (const Part& part : request.parts)
    if (const Status ok = validate(part); !ok) return ok.error();
  std::set<PartId> ids;
  for (const Part& part : request.parts)
    if (!ids.insert(part.id).second)
      return Error{"Two parts have the id " + part.id.text + ": give each its own."};
  for (const Board& board : request.boards)
    if (board.outline.vertices.size() < 3)
      return Error{"Board " + board.name + " has no outline: scan or draw it before planning."};
  return success();
}

bool isForbidden(const PlanRequest& request, const Board& board) {
  return std::find(request.forbidden.begin(), request.forbidden.end(), board.id) !=
         request.forbidden.end();
}

void remark(const PlanRequest& request, Plan& plan) {
  for (const Board& board : request.boards) {
    if (board.setApart) plan.remarks.push_back("Board " + board.name + " is set apart: not used.");
    for (const Face face : {Face::A, Face::B})
      if (!board.setApart && !lookedAt(board, face))
        plan.remarks.push_back("Face " + std::string(name(face)) + " of board " + board.name +
                               " was never photographed: no part shows on it.");
  }
}

}  // namespace

Status PlanOptions::validate() const {
  if (!(limitSeconds > 0)) return Error{"The time for planning must be more than 0 seconds."};
  if (!(weights.look >= 0 && weights.look <= 1))
    return Error{"The weight of the look must be from 0 to 1."};
  if (mostCopiesInBlank < 1) return Error{"A blank holds at least one copy."};
  return success();
}

Result<Plan> makePlan(const PlanRequest& request, const PlanOptions& options, RunControl& control) {
  const auto start = std::chrono::steady_clock::now();
  if (const Status ok = options.validate(); !ok) return ok.error();
  if (const Status ok = validate(request); !ok) return ok.error();

  std::vector<BlankKind> kinds;
  for (size_t p = 0; p < request.parts.size(); ++p)
    for (BlankKind& k :
         blankKinds(request.parts[p], static_cast<int>(p), request.shop, options.mostCopiesInBlank))
      kinds.push_back(k);
  const Job job{request.parts, kinds, request.shop};
  std::vector<std::unique_ptr<BoardMap>> maps;
  std::vector<const BoardMap*> open;
  for (const Board& board : request.boards) {
    if (board.setApart || isForbidden(request, board)) continue;
    maps.push_back(std::make_unique<BoardMap>(board, job));
    open.push_back(maps.back().get());
  }
  std::vector<int> wanted;
  for (const Part& part : request.parts) wanted.push_back(part.copies);
  const std::vector<BoardLayout> layouts = plainLayouts(open, job, wanted);
  PlanWriter writer(request, options, job);
  for (size_t b = 0; b < open.size(); ++b) writer.add(*open[b], layouts[b]);
  Plan plan = writer.take();
  plan.bound = areaBound(request, options);
  explainUnplaced(request, job, open, plan);
  remark(request, plan);
  plan.stopped = "every board was gone through once";
  control.report(1, "planned");
  if (const auto breaches = checkPlan(request, plan); !breaches.empty())
    throw std::logic_error("makePlan: the checker refused the plan: " + breaches[0].rule + ": " +
                           breaches[0].message);
  plan.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  if (options.onBetter) options.onBetter(plan);
  return plan;
}

}  // namespace rackside
