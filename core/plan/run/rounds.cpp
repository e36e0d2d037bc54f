// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/run/rounds.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "core/plan/area_bound.h"
#include "core/plan/checker.h"
#include "core/plan/made_cuts.h"
#include "core/plan/plan_difference.h"
#include "core/plan/run/finish.h"
#include "core/plan/run/reductions.h"
#include "core/plan/sound_cuts.h"
#include "core/plan/unplaced.h"

namespace rackside {
namespace {

constexpr double kMendShare = 0.5;      // of the time, for mending the plan at hand
constexpr double kDissolveShare = 0.7;  // of the time that gangs have to find a place
// Of a plan at hand that no longer holds, this share of the pieces may be moved that need not be.
// (How much turning round a better plan is worth is for the maker to say, who can plan once more.)
constexpr double kMayMove = 0.1;
constexpr double kWorthTelling = 0.01;  // of the value
constexpr double kSamePlaceMm = 1;

// Ids come from a seed, and those of the plan at hand may not come back for something else.
unsigned long long seedAfter(const Plan& plan, unsigned long long seed) {
  for (const Cut& cut : plan.cuts)
    for (const char c : cut.id.text) seed = seed * 1099511628211ULL + static_cast<unsigned char>(c);
  return seed;
}

bool isSamePlace(const Piece& a, const Piece& b) {
  const Rect p = bounds(a.outline), q = bounds(b.outline);
  return std::max({std::abs(p.x0 - q.x0), std::abs(p.y0 - q.y0), std::abs(p.x1 - q.x1),
                   std::abs(p.y1 - q.y1)}) <= kSamePlaceMm;
}

// Pieces of `before` that lie elsewhere in `after`, or nowhere; copies of a part are alike.
size_t moved(const Plan& before, const Plan& after) {
  std::multimap<std::pair<BoardId, PartId>, const Piece*> now;
  for (const Piece& p : after.pieces) now.insert({{p.board, p.part}, &p});
  size_t count = 0;
  for (const Piece& p : before.pieces) {
    const auto [from, to] = now.equal_range({p.board, p.part});
    const auto found =
        std::find_if(from, to, [&](const auto& entry) { return isSamePlace(p, *entry.second); });
    if (found == to)
      ++count;
    else
      now.erase(found);
  }
  return count;
}

// Share of what `b` is worth that `a` is worth more; for least stock pieces come first.
double gain(const Plan& a, const Plan& b, PlanGoal goal) {
  if (goal == PlanGoal::mostValue) return (a.value - b.value) / std::max(1e-9, std::abs(b.value));
  const double more = static_cast<double>(a.pieces.size()) - static_cast<double>(b.pieces.size());
  if (more != 0) return more / std::max<double>(1, static_cast<double>(b.pieces.size()));
  return (b.stockMm2 - a.stockMm2) / std::max(1e-9, b.stockMm2);
}

bool wantsNothing(const PlanRequest& request) {
  return request.boards.empty() || std::all_of(request.parts.begin(), request.parts.end(),
                                               [](const Part& p) { return p.copies == 0; });
}

}  // namespace

Rounds::Rounds(const PlanRequest& request, const PlanOptions& options, const PlanChoice& choice,
               RunControl& control)
    : request_(request), options_(options), choice_(choice), control_(control) {
  bound_ = gridBound_ = areaBound(request, options);
  if (!request.current) return;
  atHand_ = *request.current;
  makeCutsSound(request, *atHand_);
  request_.current = &*atHand_;
  mayMoveAll_ = !options.onlyWhatIsLost && checkPlan(request_, *atHand_).empty();
}

double Rounds::seconds() const {
  return std::chrono::duration<double>(Clock::now() - start_).count();
}

bool Rounds::mayGoOn() const {
  return !control_.shouldEnd() && seconds() < options_.limitSeconds;
}

// What holds is not given up for less.
void Rounds::startFromPlanAtHand() {
  const Reductions reductions(request_, options_, Kept::whatIsCut, {});
  Plan plan = *atHand_;
  plan.bound = plan.gridBound = bound_;
  finish(request_, options_, reductions.limits(), plan);
  if (checkPlan(request_, plan).empty()) best_ = std::move(plan);
}

Result<std::vector<Plan>> Rounds::make() {
  if (atHand_ && mayMoveAll_ && options_.goal == PlanGoal::mostValue) startFromPlanAtHand();
  if (!mayMoveAll_)
    if (const Status ok = mend(); !ok) return ok.error();
  Round all, loose;
  all.mayDissolve = all.boundsAll = loose.boundsAll = true;
  all.untilSeconds = loose.untilSeconds = options_.limitSeconds;
  if (!best_ || mayGoOn())
    if (const Status ok = run(all); !ok) return ok.error();
  loose.dissolved = withoutPlace_;
  if (!loose.dissolved.empty() && mayGoOn())
    if (const Status ok = run(loose); !ok) return ok.error();
  if (!best_) return refused();
  return chosen();
}

Status Rounds::mend() {
  Round least, more;
  least.kept = Kept::blanks;
  least.untilSeconds = kMendShare / 2 * options_.limitSeconds;
  if (const Status ok = run(least); !ok) return ok;
  lost_ = best_ ? moved(*atHand_, *best_) : atHand_->pieces.size();
  // Nothing has lost its place: more is wanted, and for that all may move.
  mayMoveAll_ = lost_ == 0 && !options_.onlyWhatIsLost;
  more.kept = Kept::sections;
  more.untilSeconds = kMendShare * options_.limitSeconds;
  return lost_ > 0 && mayGoOn() ? run(more) : success();
}

Status Rounds::run(const Round& round) {
  std::optional<Plan> from;
  PlanRequest request = request_;
  if (best_ && round.kept == Kept::whatIsCut) {
    from = best_;
    request.current = &*from;
  }
  withoutPlace_.clear();
  const Reductions reductions(request, options_, round.kept, round.dissolved);
  if (wantsNothing(reductions.lowest().request)) {
    Plan nothing;
    nothing.stopped = "nothing was left to plan";
    receive(reductions, round, {std::move(nothing)});
    return success();
  }
  return search(reductions, round);
}

Status Rounds::search(const Reductions& reductions, const Round& round) {
  const PlanRequest& lowest = reductions.lowest().request;
  Result<std::vector<PinnedSection>> pins = pinnedSections(lowest);
  if (!pins) return pins.error();
  RunTime time{start_, round.untilSeconds, options_.limitSeconds, {}, {}};
  if (isListening() || reductions.hasGangs())
    time.better = [&](const Plan& better) {
      withoutPlace_ = reductions.gangsMissingIn(better);
      if (!isListening()) return;
      if (auto plan = sound(reductions, round, better)) take(std::move(*plan));
    };
  if (round.mayDissolve)
    time.isEnough = [&] {
      return !withoutPlace_.empty() && seconds() > kDissolveShare * options_.limitSeconds;
    };
  PlanOptions own = options_;
  if (atHand_) own.seed = seedAfter(*atHand_, own.seed + static_cast<unsigned>(round.kept));
  PlanRun planning(reductions.lowest(), own, round.boundsAll ? choice_ : PlanChoice{},
                   std::move(pins).value(), time, control_);
  receive(reductions, round, planning.make());
  return success();
}

void Rounds::receive(const Reductions& reductions, const Round& round, std::vector<Plan> plans) {
  withoutPlace_ = reductions.gangsMissingIn(plans.front());
  for (size_t i = 0; i < plans.size(); ++i) {
    stopped_ = plans[i].stopped;
    auto plan = sound(reductions, round, std::move(plans[i]));
    if (!plan) continue;
    if (i == 0 && round.boundsAll) {
      const bool widens = !round.dissolved.empty();
      bound_ = widens ? std::max(bound_, plan->bound) : plan->bound;
      gridBound_ = widens ? std::max(gridBound_, plan->gridBound) : plan->gridBound;
    }
    others_.push_back(*plan);
    if (i == 0) take(std::move(*plan));
  }
}

std::optional<Plan> Rounds::sound(const Reductions& reductions, const Round& round, Plan plan) {
  reductions.raise(plan);
  makeCutsSound(request_, plan);
  if (!round.boundsAll) plan.bound = plan.gridBound = bound_;
  finish(request_, options_, reductions.limits(), plan);
  plan.seconds = seconds();
  const auto breaches = checkPlan(request_, plan);
  if (breaches.empty()) return plan;
  fault_ = breaches[0].message + " (" + breaches[0].rule + ")";
  return std::nullopt;
}

void Rounds::take(Plan plan) {
  if (best_ && !isPreferred(plan, *best_)) return;
  best_ = std::move(plan);
  if (options_.onBetter) options_.onBetter(*best_);
}

bool Rounds::movesMuch(const Plan& plan) const {
  if (mayMoveAll_) return false;
  const double most = kMayMove * static_cast<double>(atHand_->pieces.size());
  return static_cast<double>(moved(*atHand_, plan)) > std::max(most, static_cast<double>(lost_));
}

bool Rounds::isPreferred(const Plan& plan, const Plan& before) const {
  const bool muchNow = movesMuch(plan), muchBefore = movesMuch(before);
  return muchNow == muchBefore ? gain(plan, before, options_.goal) > 0 : !muchNow;
}

// When another plan of these is worth more, and was passed over for all that it moves.
void Rounds::tellOfBetter(Plan& plan) const {
  for (const Plan& other : others_)
    if (gain(other, plan, PlanGoal::mostValue) > kWorthTelling) {
      plan.remarks.emplace_back(
          "What still stands was left where it is. A better plan moves more: plan once more for "
          "it.");
      return;
    }
}

Error Rounds::refused() const {
  if (!request_.pinned.empty())
    return Error{"A pinned piece cannot stay where it is: " + fault_ + ". Unpin it or move it."};
  if (atHand_ && hasMadeCuts(*atHand_))
    return Error{"What has been cut does not go together with a new plan: " + fault_ +
                 ". Unpin what is pinned, or take the last tick back."};
  throw std::logic_error(fault_);
}

// Those that differ from all before them and lose no more than is allowed.
std::vector<Plan> Rounds::chosen() {
  std::vector<Plan> plans{std::move(*best_)};
  tellOfBetter(plans[0]);
  std::stable_sort(others_.begin(), others_.end(),
                   [&](const Plan& a, const Plan& b) { return gain(a, b, options_.goal) > 0; });
  for (Plan& other : others_) {
    if (static_cast<int>(plans.size()) == choice_.most) break;
    const bool differs = std::all_of(plans.begin(), plans.end(), [&](const Plan& plan) {
      return shareElsewhere(plan, other) >= choice_.leastElsewhere - 1e-9;
    });
    if (differs && gain(other, plans[0], options_.goal) >= -choice_.mostLoss - 1e-9)
      plans.push_back(std::move(other));
  }
  for (Plan& plan : plans) {
    plan.bound = std::max(bound_, plan.value);
    plan.gridBound = std::max(gridBound_, plan.value);
    plan.stopped = stopped_;
    plan.seconds = seconds();
    explainUnplaced(request_, plan);
  }
  return plans;
}

}  // namespace rackside
