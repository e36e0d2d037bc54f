// SPDX-License-Identifier: GPL-3.0-or-later
// The one way from a rack to its plan: what the plan at hand is worth stays worth it.
#include "core/document/plan_rack.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "../plan/random_racks.h"
#include "core/document/pinned.h"
#include "core/plan/checker.h"
#include "core/plan/made_cuts.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Rack rackOf(const RackSpec& spec) {
  const PlanRequest request = randomRack(spec);
  Rack rack;
  rack.boards = request.boards;
  rack.parts = request.parts;
  rack.shop = request.shop;
  return rack;
}

Plan planned(const Rack& rack, const RackPlanOptions& options) {
  RunControl control;
  Result<std::vector<Plan>> plans = planRack(rack, options, nullptr, control);
  INFO((plans ? std::string() : plans.error().message));
  REQUIRE(plans.ok());
  return plans->front();
}

RackPlanOptions within(const Rack& rack, double seconds) {
  RackPlanOptions options = planOptionsFor(rack);
  options.planning.limitSeconds = seconds;
  return options;
}

std::string refusal(const Rack& rack, const RackPlanOptions& options) {
  RunControl control;
  const auto plans = planRack(rack, options, nullptr, control);
  return plans ? "" : plans.error().message;
}

}  // namespace

TEST_CASE("pins that the plan at hand obeys cost nothing", "[planner][pin]") {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    Rack rack = rackOf({4, 20, seed, 0.8});
    rack.plan = planned(rack, within(rack, 0.4));
    REQUIRE(rack.plan->pieces.size() >= 4);
    RackPlanOptions options = within(rack, 0.3);
    for (size_t i = seed % 2; i < rack.plan->pieces.size(); i += 3)
      options.pinned.push_back(rack.plan->pieces[i].id);
    INFO("seed " << seed);
    CHECK(planned(rack, options).value >= rack.plan->value - 1e-6);
    // Nor do those that are pinned in the plan itself, which stay pinned.
    rack.plan = withPin(*rack.plan, rack.plan->pieces[1].id, true);
    const Plan after = planned(rack, within(rack, 0.3));
    CHECK(after.value >= rack.plan->value - 1e-6);
    CHECK(isPinned(after, rack.plan->pieces[1].id));
  }
}

TEST_CASE("planned once more, a rack's plan is worth no less", "[planner]") {
  for (unsigned seed = 1; seed <= 4; ++seed) {
    Rack rack = rackOf({4, 24, seed, 0.9});
    rack.plan = planned(rack, within(rack, 1));
    const Plan after = planned(rack, within(rack, 0.1));
    INFO("seed " << seed);
    CHECK(after.value >= rack.plan->value - 1e-6);
  }
}

namespace {

Mark freshKnot(Point at) {
  Mark knot;
  knot.id = {"fresh-knot"};
  knot.kind = MarkKind::knot;
  knot.through = true;
  knot.onA = Ellipse{at, 8, 8, 0};
  return knot;
}

// Pieces that a plan has where another has one of the same part, matched one by one.
int staying(const Plan& before, Plan after) {
  int count = 0;
  for (const Piece& p : before.pieces) {
    const Rect box = bounds(p.outline);
    const auto found = std::find_if(after.pieces.begin(), after.pieces.end(), [&](const Piece& q) {
      const Rect now = bounds(q.outline);
      return q.part == p.part && q.board == p.board && std::abs(now.x0 - box.x0) < 1 &&
             std::abs(now.y0 - box.y0) < 1 && std::abs(now.x1 - box.x1) < 1;
    });
    if (found == after.pieces.end()) continue;
    after.pieces.erase(found);
    ++count;
  }
  return count;
}

}  // namespace

TEST_CASE("after one knot nine of ten pieces stay", "[planner][replan]") {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    Rack rack = rackOf({8, 50, seed, 0.9});
    rack.plan = planned(rack, within(rack, 0.6));
    const Plan before = *rack.plan;
    const Piece& hit = before.pieces[before.pieces.size() / 2];
    const Rect box = bounds(hit.outline);
    rack.findBoard(hit.board)->marks.push_back(
        freshKnot({(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2}));
    const Plan after = planned(rack, within(rack, 1.2));
    INFO("seed " << seed << ", " << before.pieces.size() << " pieces");
    CHECK(10 * staying(before, after) >= 9 * static_cast<int>(before.pieces.size()));
    CHECK(std::none_of(after.pieces.begin(), after.pieces.end(),
                       [&](const Piece& p) { return p.id == hit.id; }));
  }
}

TEST_CASE("one more part finds its place beside what is planned", "[planner][replan]") {
  for (unsigned seed = 1; seed <= 4; ++seed) {
    Rack rack = rackOf({8, 40, seed, 0.6});
    rack.plan = planned(rack, within(rack, 0.5));
    const Plan before = *rack.plan;
    rack.parts[0].copies += 1;
    const Plan after = planned(rack, within(rack, 0.6));
    INFO("seed " << seed);
    CHECK(after.value >= before.value - 1e-6);
  }
}

TEST_CASE("a plan made afresh keeps what is cut and nothing else", "[planner]") {
  Rack rack = rackOf({4, 20, 3, 0.8});
  rack.plan = planned(rack, within(rack, 0.3));
  const Cut& first = *std::find_if(rack.plan->cuts.begin(), rack.plan->cuts.end(),
                                   [](const Cut& c) { return c.order == 1; });
  const CutId made = first.id;
  rack.plan = withCutsMade(*rack.plan, *rack.findBoard(first.board), {1}).value();
  RackPlanOptions options = within(rack, 0.3);
  options.afresh = true;
  const Plan after = planned(rack, options);
  for (const Piece& piece : after.pieces)
    CHECK(std::none_of(rack.plan->pieces.begin(), rack.plan->pieces.end(),
                       [&](const Piece& p) { return p.id == piece.id; }));
  CHECK(std::any_of(after.cuts.begin(), after.cuts.end(),
                    [&](const Cut& c) { return c.id == made && c.made; }));
}

TEST_CASE("boards that may not be used promise nothing", "[planner]") {
  const Rack rack = rackOf({3, 10, 1, 0.8});
  RackPlanOptions options = within(rack, 0.3);
  for (const Board& board : rack.boards) options.forbidden.push_back(board.id);
  const Plan plan = planned(rack, options);
  CHECK(plan.pieces.empty());
  CHECK(plan.bound == 0);
}

TEST_CASE("wood that is kept from the planner is not said to be missing", "[planner]") {
  Rack rack = rackOf({2, 6, 2, 0.5});
  for (Part& part : rack.parts) part.species = "cherry";
  for (Board& board : rack.boards) board.species = "oak";
  const auto why = [&] { return planned(rack, within(rack, 0.2)).unplaced.front().why; };
  CHECK(why() == "no board of cherry is on the rack");
  rack.boards[1].species = "cherry";
  rack.boards[1].state = BoardState::setAside;
  CHECK(why().find(rack.boards[1].name + " is set aside") != std::string::npos);
}

TEST_CASE("a board whose outline crosses itself is refused by its name", "[planner]") {
  Rack rack = rackOf({2, 6, 2, 0.5});
  auto& corners = rack.boards[1].outline.vertices;
  std::swap(corners[1], corners[corners.size() / 2]);
  const std::string said = refusal(rack, within(rack, 0.2));
  CHECK(said.find("board " + rack.boards[1].name + " crosses itself") != std::string::npos);
  rack.boards[1].state = BoardState::setAside;
  CHECK(refusal(rack, within(rack, 0.2)).empty());
}

TEST_CASE("an empty rack and an empty list are told apart", "[planner]") {
  Rack rack = rackOf({2, 6, 2, 0.5});
  Rack bare = rack;
  bare.boards.clear();
  CHECK(refusal(bare, within(rack, 0.2)).find("no boards") != std::string::npos);
  rack.parts.clear();
  CHECK(refusal(rack, within(rack, 0.2)).find("parts list") != std::string::npos);
}
