// SPDX-License-Identifier: GPL-3.0-or-later
// The rounds in which one request is planned, each from the best plan so far. A plan at hand that
// no longer holds is mended first: what stands stays, what has lost its place finds another. Then
// the whole rack is searched. Gangs that have found no place when most of the time has gone are
// dissolved for the rest of it.
#pragma once

#include <chrono>
#include <optional>

#include "core/plan/bench.h"
#include "core/plan/gangs.h"
#include "core/plan/planner.h"
#include "core/plan/run/plan_run.h"

namespace rackside {

class Reductions;

class Rounds {
 public:
  Rounds(const PlanRequest& request, const PlanOptions& options, const PlanChoice& choice,
         RunControl& control);
  // The best plan first, then those that differ enough within the loss allowed.
  Result<std::vector<Plan>> make();

 private:
  using Clock = std::chrono::steady_clock;
  struct Round {
    Kept kept = Kept::whatIsCut;
    bool mayDissolve = false;  // may end early for gangs without a place
    std::vector<Gang> dissolved = {};
    double untilSeconds = 0;
    bool boundsAll = false;  // its bound holds for the whole request
  };

  void startFromPlanAtHand();
  Status mend();
  Status run(const Round& round);
  Status search(const Reductions& reductions, const Round& round);
  void receive(const Reductions& reductions, const Round& round, std::vector<Plan> plans);
  // The plan as one of the request, when the checker passes it.
  std::optional<Plan> sound(const Reductions& reductions, const Round& round, Plan plan);
  void take(Plan plan);
  bool isPreferred(const Plan& plan, const Plan& before) const;
  bool movesMuch(const Plan& plan) const;
  void tellOfBetter(Plan& plan) const;
  bool isListening() const { return options_.onBetter || !mayMoveAll_; }
  bool mayGoOn() const;
  double seconds() const;
  Error refused() const;
  std::vector<Plan> chosen();

  PlanRequest request_;
  const PlanOptions& options_;
  const PlanChoice choice_;
  RunControl& control_;
  Clock::time_point start_ = Clock::now();
  std::optional<Plan> atHand_;  // the current plan, without idle cuts
  bool mayMoveAll_ = true;      // no plan is at hand, or it holds as it is
  size_t lost_ = 0;             // pieces of it that cannot stay
  std::optional<Plan> best_;
  std::vector<Plan> others_;        // all that a round ended with
  std::vector<Gang> withoutPlace_;  // gangs
  double bound_ = 0, gridBound_ = 0;
  std::string stopped_;
  std::string fault_;  // the latest that the checker found
};

}  // namespace rackside
