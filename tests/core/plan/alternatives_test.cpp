// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/plan/checker.h"
#include "core/plan/made_cuts.h"
#include "core/plan/plan_difference.h"
#include "core/plan/planner.h"
#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Piece pieceOn(const char* board, const char* part) {
  Piece p;
  p.board = {board};
  p.part = {part};
  return p;
}

Plan planOf(std::vector<Piece> pieces) {
  Plan plan;
  plan.pieces = std::move(pieces);
  return plan;
}

// Takes pieces of both plans that match, one by one.
template <class Matches>
int takeMatches(std::vector<Piece>& before, std::vector<Piece>& after, Matches matches) {
  int taken = 0;
  for (size_t k = 0; k < before.size();) {
    const auto found = std::find_if(after.begin(), after.end(),
                                    [&](const Piece& p) { return matches(before[k], p); });
    if (found == after.end()) {
      ++k;
      continue;
    }
    after.erase(found);
    before.erase(before.begin() + static_cast<std::ptrdiff_t>(k));
    ++taken;
  }
  return taken;
}

// By hand, so that no counting is shared with the planner: first those that stay are matched, then
// those that lie on another board; the rest are left out.
double elsewhereByHand(const Plan& before, const Plan& after) {
  std::vector<Piece> then = before.pieces, now = after.pieces;
  takeMatches(then, now, [](const Piece& a, const Piece& b) {
    return a.part == b.part && a.board == b.board;
  });
  const int moved =
      takeMatches(then, now, [](const Piece& a, const Piece& b) { return a.part == b.part; });
  return static_cast<double>(moved) / static_cast<double>(before.pieces.size());
}

}  // namespace

TEST_CASE("plans differ by pieces on other boards, not by copies that change places",
          "[planner][alternatives]") {
  const Plan before = planOf(
      {pieceOn("a", "rail"), pieceOn("a", "rail"), pieceOn("b", "leg"), pieceOn("b", "top")});
  CHECK(shareElsewhere(before, before) == 0);
  const Plan turned = planOf(
      {pieceOn("b", "top"), pieceOn("a", "rail"), pieceOn("b", "leg"), pieceOn("a", "rail")});
  CHECK(shareElsewhere(before, turned) == 0);
  const Plan moved = planOf(
      {pieceOn("a", "rail"), pieceOn("b", "rail"), pieceOn("b", "leg"), pieceOn("b", "top")});
  CHECK(shareElsewhere(before, moved) == Approx(0.25));
  // What is left out lies nowhere else.
  CHECK(shareElsewhere(before, planOf({pieceOn("a", "rail")})) == 0);
  CHECK(shareElsewhere(before, planOf({pieceOn("b", "rail")})) == Approx(0.25));
}

TEST_CASE("another plan tells what it is better at", "[planner][alternatives]") {
  Board a, b;
  a.id = {"a"}, a.name = "7";
  b.id = {"b"}, b.name = "8";
  Plan plan = planOf({pieceOn("a", "rail"), pieceOn("b", "leg")});
  plan.value = 100, plan.stockMm2 = 2e6;
  plan.cuts.resize(6);
  CHECK(betterAt({a, b}, plan, plan).empty());
  Plan other = planOf({pieceOn("a", "rail"), pieceOn("a", "leg")});
  other.value = 98, other.stockMm2 = 1.5e6;
  other.cuts.resize(5);
  CHECK(betterAt({a, b}, plan, other) ==
        std::vector<std::string>{"leaves board 8 whole", "uses 25.0 % less wood", "1 cut fewer"});
  CHECK(betterAt({a, b}, other, plan) == std::vector<std::string>{"worth 2.0 % more"});
}

TEST_CASE("alternatives are sound, near the best in value and really different",
          "[planner][alternatives]") {
  int found = 0;
  for (unsigned seed = 1; seed <= 3; ++seed) {
    const PlanRequest request = randomRack({6, 24, seed, 0.6});
    PlanOptions options;
    options.limitSeconds = 3;
    PlanChoice choice;
    choice.most = 3;
    RunControl control;
    const Result<std::vector<Plan>> plans = makePlans(request, options, choice, control);
    REQUIRE(plans.ok());
    REQUIRE(plans->size() >= 1);
    INFO("seed " << seed);
    for (size_t i = 0; i < plans->size(); ++i) {
      const Plan& plan = (*plans)[i];
      CHECK(checkPlan(request, plan).empty());
      CHECK(plan.value <= plans->front().value * (1 + 1e-9));
      CHECK(plan.value >= plans->front().value * (1 - choice.mostLoss) - 1e-6);
      for (size_t k = 0; k < i; ++k)
        CHECK(elsewhereByHand((*plans)[k], plan) >= choice.leastElsewhere - 1e-9);
    }
    found += static_cast<int>(plans->size()) - 1;
  }
  CHECK(found >= 3);
}

TEST_CASE("a choice of plans that asks for the impossible says so", "[planner][alternatives]") {
  const PlanRequest request = randomRack({1, 3, 1, 0.5});
  RunControl control;
  PlanChoice choice;
  choice.most = 0;
  CHECK(!makePlans(request, {}, choice, control).ok());
  choice.most = 3;
  choice.leastElsewhere = 0;
  CHECK(!makePlans(request, {}, choice, control).ok());
  // With one board nothing can lie on another.
  choice.leastElsewhere = 0.5;
  choice.mostLoss = 0.01;
  PlanOptions options;
  options.limitSeconds = 1;
  const auto plans = makePlans(request, options, choice, control);
  REQUIRE(plans.ok());
  CHECK(plans->size() == 1);
}

namespace {

PlanChoice three() {
  PlanChoice choice;
  choice.most = 3;
  return choice;
}

}  // namespace

TEST_CASE("alternatives with panels hold whole panels", "[planner][alternatives][panel]") {
  int found = 0;
  for (const unsigned seed : {3U, 5U, 6U}) {
    const PlanRequest request = randomRack({6, 20, seed, 0.5, false, true});
    PlanOptions options;
    options.limitSeconds = 3;
    RunControl control;
    const Result<std::vector<Plan>> plans = makePlans(request, options, three(), control);
    REQUIRE(plans.ok());
    for (size_t i = 0; i < plans->size(); ++i) {
      const Plan& plan = (*plans)[i];
      INFO("seed " << seed << ", plan " << i);
      for (const Breach& b : checkPlan(request, plan)) FAIL_CHECK(b.rule + ": " + b.message);
      CHECK(plan.value >= plans->front().value * (1 - three().mostLoss) - 1e-6);
      if (i > 0 && !plan.panels.empty()) ++found;
    }
  }
  CHECK(found >= 2);
}

TEST_CASE("alternatives after cuts were made leave alone what is cut",
          "[planner][alternatives][cut]") {
  int found = 0;
  for (unsigned seed = 1; seed <= 5; ++seed) {
    PlanRequest request = randomRack({12, 24, seed, 0.6, false});
    PlanOptions options;
    options.limitSeconds = 1;
    RunControl control;
    const Result<Plan> first = makePlan(request, options, control);
    REQUIRE(first.ok());
    const BoardId board = first->cuts.front().board;
    const auto on = std::find_if(request.boards.begin(), request.boards.end(),
                                 [&](const Board& b) { return b.id == board; });
    Result<Plan> cut = withCutsMade(*first, *on, {1, 2});
    REQUIRE(cut.ok());
    const Plan current = onlyWhatIsCut(*cut);
    request.current = &current;
    options.limitSeconds = 3;
    const Result<std::vector<Plan>> plans = makePlans(request, options, three(), control);
    REQUIRE(plans.ok());
    for (const Plan& plan : *plans) {
      // The rule about cuts that were made is among the checker's.
      for (const Breach& b : checkPlan(request, plan)) FAIL_CHECK(b.rule + ": " + b.message);
      CHECK(std::count_if(plan.cuts.begin(), plan.cuts.end(),
                          [](const Cut& c) { return c.made; }) == 2);
    }
    found += static_cast<int>(plans->size()) - 1;
  }
  CHECK(found >= 3);
}
