// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/planner.h"

#include <catch2/catch.hpp>

#include "core/plan/checker.h"
#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Plan planned(const PlanRequest& request) {
  RunControl control;
  PlanOptions options;
  options.limitSeconds = 0.5;
  const Result<Plan> plan = makePlan(request, options, control);
  REQUIRE(plan.ok());
  return plan.value();
}

}  // namespace

TEST_CASE("plans of random racks pass every rule of the checker", "[planner]") {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const PlanRequest request = randomRack({3, 15, seed, 0.7 + 0.03 * seed});
    const Plan plan = planned(request);
    const auto breaches = checkPlan(request, plan);
    INFO("seed " << seed
                 << (breaches.empty() ? "" : ": " + breaches[0].rule + breaches[0].message));
    CHECK(breaches.empty());
    CHECK(!plan.pieces.empty());
  }
}
