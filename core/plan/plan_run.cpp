// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/plan_run.h"

#include <algorithm>
#include <stdexcept>

#include "core/plan/area_bound.h"
#include "core/plan/checker.h"
#include "core/plan/search/each_in_parallel.h"
#include "core/plan/search/first_plan.h"
#include "core/plan/unplaced.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

// The bound pays for what a column rounds away, about half of it for each crosscut: with these a
// third of a percent. The first plan is made on columns twice as wide in a quarter of the time.
constexpr double kFineMm = 2.5;
constexpr int kCoarser = 2;
// A better plan is written and checked at most so often.
constexpr double kPublishSeconds = 0.5;

bool mayUse(const PlanRequest& request, const Board& board) {
  return !board.setApart && std::find(request.forbidden.begin(), request.forbidden.end(),
                                      board.id) == request.forbidden.end();
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

void requireSound(const PlanRequest& request, const Plan& plan) {
  if (const auto breaches = checkPlan(request, plan); !breaches.empty())
    throw std::logic_error("makePlan: the checker refused the plan: " + breaches[0].rule + ": " +
                           breaches[0].message);
}

// On columns `times` narrower, where all that fitted still fits.
void toFiner(Offer& offer, int times) {
  for (SectionLayout& s : offer.layout.sections) {
    s.from *= times;
    s.to *= times;
    for (StripLayout& strip : s.strips) strip.column *= times;
  }
}

}  // namespace

PlanRun::Grid::Grid(const PlanRequest& request, const std::vector<BlankKind>& kinds, double cellMm)
    : job{request.parts, kinds, request.shop, cellMm} {
  std::vector<const Board*> boards;
  for (const Board& b : request.boards)
    if (mayUse(request, b)) boards.push_back(&b);
  maps.resize(boards.size());
  eachInParallel(static_cast<int>(boards.size()),
                 [&](int b, int) { maps[b] = std::make_unique<BoardMap>(*boards[b], job); });
  for (const auto& map : maps) open.push_back(map.get());
}

PlanRun::PlanRun(const PlanRequest& request, const PlanOptions& options, RunControl& control)
    : request_(request), options_(options), control_(control) {
  for (size_t p = 0; p < request.parts.size(); ++p)
    for (BlankKind& k :
         blankKinds(request.parts[p], static_cast<int>(p), request.shop, options.mostCopiesInBlank))
      kinds_.push_back(k);
  bound_ = areaBound_ = areaBound(request, options);
}

double PlanRun::seconds() const {
  return std::chrono::duration<double>(Clock::now() - start_).count();
}

bool PlanRun::shouldEnd() const {
  return control_.shouldEnd() || seconds() >= options_.limitSeconds;
}

RackProblem PlanRun::problemOn(const Grid& grid) const {
  RackProblem problem{grid.job, grid.open, request_.worth, options_.weights.look, {}};
  for (const Part& part : request_.parts) problem.wanted.push_back(part.copies);
  return problem;
}

Plan PlanRun::written(const Grid& grid, const std::vector<Offer>& offers, double bound) const {
  PlanWriter writer(request_, options_, grid.job);
  for (const Offer& o : offers) writer.add(*grid.open[o.board], o.layout);
  Plan plan = writer.take();
  plan.bound = std::max(bound, plan.value);
  plan.seconds = seconds();
  plan.seed = options_.seed;
  remark(request_, plan);
  return plan;
}

void PlanRun::publish(const Grid& grid, const std::vector<Offer>& offers, double bound) {
  if (!options_.onBetter) return;
  Plan plan = written(grid, offers, bound);
  markUnplaced(request_, plan);
  plan.stopped = "the search goes on";
  requireSound(request_, plan);
  options_.onBetter(plan);
}

void PlanRun::search(const Grid& grid, std::vector<Offer> start) {
  RackSearch search(problemOn(grid), options_.seed, [this] { return shouldEnd(); });
  for (Offer& o : start) toFiner(o, kCoarser);
  search.startFrom(std::move(start));
  double shown = search.bestPay(), shownAt = seconds();
  bool more = true;
  while (more && !shouldEnd()) {
    more = search.step();
    bound_ = std::min(areaBound_, search.bound());
    gridBound_ = std::min(areaBound_, search.gridBound());
    control_.report(std::min(0.99, seconds() / options_.limitSeconds), "looking for a better plan");
    if (search.bestPay() <= shown || (more && seconds() - shownAt < kPublishSeconds)) continue;
    publish(grid, search.best(), bound_);
    shown = search.bestPay(), shownAt = seconds();
  }
  offers_ = search.best();
  stopped_ = more ? (control_.stopRequested() ? "stopped by hand" : "the time was up")
                  : "nothing better was left to try";
}

Plan PlanRun::make() {
  std::vector<Offer> first;
  {
    const Grid coarse(request_, kinds_, kCoarser * kFineMm);
    first = firstPlan(problemOn(coarse));
    publish(coarse, first, areaBound_);
    control_.report(0.02, "a first plan");
  }
  const Grid fine(request_, kinds_, kFineMm);
  search(fine, std::move(first));
  Plan plan = written(fine, offers_, bound_);
  explainUnplaced(request_, fine.job, fine.open, plan);
  plan.stopped = stopped_;
  plan.gridBound = gridBound_;
  plan.seconds = seconds();
  requireSound(request_, plan);
  control_.report(1, "planned");
  return plan;
}

}  // namespace rackside
