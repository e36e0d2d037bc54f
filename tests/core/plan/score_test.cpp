// SPDX-License-Identifier: GPL-3.0-or-later
// What a plan's value is made of.
#include "core/plan/score.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/plan/checker.h"
#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Board plank(const std::string& id, double thickness, double price) {
  Board b;
  b.id = {id};
  b.name = id;
  b.thicknessMm = thickness;
  b.pricePerBoardFoot = price;
  for (const Point p : rectangle({0, 0, 2000, 200}))
    b.outline.vertices.push_back({p, 0, EdgeState::sure});
  return b;
}

Part rail() {
  Part p;
  p.id = {"rail"};
  p.name = "Rail";
  p.lengthMm = 600;
  p.widthMm = 80;
  p.thicknessMm = 19;
  p.value = 40;
  return p;
}

Plan planned(const PlanRequest& request, const PlanWeights& weights) {
  RunControl control;
  PlanOptions options;
  options.limitSeconds = 0.3;
  options.weights = weights;
  const Result<Plan> plan = makePlan(request, options, control);
  REQUIRE(plan.ok());
  return *plan;
}

double sumOf(const Plan& plan) {
  double sum = 0;
  for (const ScoreTerm& t : plan.score) sum += t.value;
  return sum;
}

const ScoreTerm& termOf(const Plan& plan, const std::string& name) {
  return *std::find_if(plan.score.begin(), plan.score.end(),
                       [&](const ScoreTerm& t) { return t.name == name; });
}

bool isRemarked(const Plan& plan, const std::string& words) {
  for (const Blank& b : plan.blanks)
    for (const std::string& remark : b.remarks)
      if (remark.find(words) != std::string::npos) return true;
  return false;
}

}  // namespace

TEST_CASE("the terms of a plan add up to its value exactly", "[score]") {
  for (unsigned seed = 1; seed <= 8; ++seed) {
    PlanRequest request = randomRack({3, 14, seed, 0.7});
    for (Board& b : request.boards) b.pricePerBoardFoot = 4 + seed;
    const PlanWeights weights{0.3, seed % 2 ? 900.0 : 0.0, seed % 2 ? 500.0 : 0.0};
    const Plan plan = planned(request, weights);
    REQUIRE(plan.score.size() == 4);
    CHECK(sumOf(plan) == plan.value);
    for (const ScoreTerm& t : plan.score) CHECK(t.value == t.weight * t.amount);
    CHECK(termOf(plan, "looks").weight == 0.3);
    CHECK(plan.bound >= plan.value);
    CHECK(checkPlan(request, plan).empty());
  }
}

TEST_CASE("stock counts by volume at the board's price", "[score]") {
  // 2 m × 200 mm × 27 mm is 10 800 000 mm³, and a board foot 144 · 25.4³ = 2 359 737.2 mm³:
  // 4.5768 board feet, at 8 a board foot 36.61.
  const Plan plan = planned({{plank("a", 27, 8)}, {rail()}, Shop{}, {}, {}, nullptr, {}},
                            PlanWeights{0.5, 0.1, 0.05});
  CHECK(termOf(plan, "parts").value == 40);
  CHECK(termOf(plan, "stock").amount == Approx(36.614).margin(0.01));
  CHECK(termOf(plan, "stock").value == Approx(-3.6614).margin(0.001));
  // The rail takes 50 mm of end, 625 mm and two kerfs of the 2 m, so that two thirds come back.
  const double back = termOf(plan, "offcuts").amount;
  CHECK(back > 36.614 * 0.62);
  CHECK(back < 36.614 * 0.68);
  CHECK(plan.value == Approx(40 - 3.6614 + 0.05 * back).margin(0.001));
}

TEST_CASE("of two boards the cheap one is cut, and no board for a part worth less than it",
          "[score]") {
  for (const bool dearFirst : {true, false}) {
    PlanRequest request{
        {plank("dear", 27, 12), plank("cheap", 27, 3)}, {rail()}, Shop{}, {}, {}, nullptr, {}};
    if (!dearFirst) std::swap(request.boards[0], request.boards[1]);
    const Plan plan = planned(request, PlanWeights{0.5, 0.5, 0});
    REQUIRE(plan.pieces.size() == 1);
    CHECK(plan.pieces[0].board.text == "cheap");
    // At 3 a board foot the board costs 13.7; at weight 10 that is more than the rail's 40.
    CHECK(planned(request, PlanWeights{0.5, 10, 0}).pieces.empty());
  }
}

TEST_CASE("thick stock planed thin is called dear, and resawing named where it yields two",
          "[score]") {
  const auto remarks = [](double thickness) {
    return planned({{plank("a", thickness, 8)}, {rail()}, Shop{}, {}, {}, nullptr, {}},
                   PlanWeights{});
  };
  // Two of 19 mm want 2 · (19 + 1.6) + 3.2 = 44.4 mm.
  CHECK(isRemarked(remarks(54), "dear: 8/4"));
  CHECK(isRemarked(remarks(54), "resaw"));
  CHECK(isRemarked(remarks(44.5), "resaw"));
  CHECK(isRemarked(remarks(44.3), "dear"));
  CHECK_FALSE(isRemarked(remarks(44.3), "resaw"));
  CHECK_FALSE(isRemarked(remarks(27), "dear"));
}

TEST_CASE("parts that show and wide ones are told of where they cannot be milled twice",
          "[score]") {
  const auto tooThin = [](double thickness, Showing showing, double width) {
    Part part = rail();
    part.showing = showing;
    part.widthMm = width;
    const Plan plan =
        planned({{plank("a", thickness, 0)}, {part}, Shop{}, {}, {}, nullptr, {}}, PlanWeights{});
    REQUIRE(plan.blanks.size() == 1);
    return isRemarked(plan, "too thin to be milled twice");
  };
  // 19 + 1.6 + 3.2 = 23.8 mm.
  CHECK(tooThin(23.7, Showing::oneFace, 80));
  CHECK_FALSE(tooThin(23.9, Showing::oneFace, 80));
  CHECK_FALSE(tooThin(23.7, Showing::none, 80));
  CHECK(tooThin(23.7, Showing::none, 145));
}
