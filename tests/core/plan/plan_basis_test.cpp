// SPDX-License-Identifier: GPL-3.0-or-later
// A plan knows what it was made from.
#include "core/plan/plan_basis.h"

#include <catch2/catch.hpp>

#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

struct Planned {
  PlanRequest request = randomRack({3, 12, 4, 0.8});
  Plan plan;
  Planned() {
    RunControl control;
    PlanOptions options;
    options.limitSeconds = 0.5;
    plan = makePlan(request, options, control).value();
  }
  Board& cutBoard() {
    for (Board& b : request.boards)
      if (b.id == plan.pieces.front().board) return b;
    throw std::logic_error("the plan has no board");
  }
  PlanState state() const { return planState(request, plan); }
};

Mark knotOver(const Piece& piece) {
  Mark m;
  m.id = {"mk-late"};
  m.kind = MarkKind::metal;
  m.onA = piece.outline;
  m.through = true;
  return m;
}

}  // namespace

TEST_CASE("a plan holds as long as nothing was changed", "[plan-basis]") {
  const Planned p;
  CHECK(notedBasis(p.plan).has_value());
  CHECK(p.state().holds());
  CHECK(p.state().changed.empty());
}

TEST_CASE("what does not concern the plan is no change", "[plan-basis]") {
  Planned p;
  p.cutBoard().name = "other", p.cutBoard().note = "n", p.cutBoard().place = "wall";
  Mark suggested = knotOver(p.plan.pieces.front());
  suggested.confirmed = false;
  p.cutBoard().marks.push_back(suggested);
  p.request.parts[0].note = "n";
  p.request.shop.show.decimals = 2;
  CHECK(p.state().holds());
  CHECK(p.state().changed.empty());
}

TEST_CASE("a mark over a piece breaks the plan on that board alone", "[plan-basis]") {
  Planned p;
  p.cutBoard().marks.push_back(knotOver(p.plan.pieces.front()));
  const PlanState state = p.state();
  REQUIRE(state.broken.size() == 1);
  CHECK(state.broken[0].board == p.cutBoard().id);
  CHECK(state.broken[0].why.find(p.cutBoard().name) != std::string::npos);
  CHECK(state.changed == std::vector<std::string>{"board " + p.cutBoard().name});
}

TEST_CASE("a part that grew, shrank or went breaks the plan", "[plan-basis]") {
  for (const double by : {-40.0, 40.0}) {
    Planned p;
    for (Part& part : p.request.parts) part.lengthMm += by, part.outline.reset();
    CHECK_FALSE(p.state().holds());
    CHECK(p.state().changed == std::vector<std::string>{"the parts list"});
  }
  Planned p;
  p.request.parts.clear();
  CHECK_FALSE(p.state().holds());
}

TEST_CASE("another saw or a board that left breaks the plan", "[plan-basis]") {
  Planned saw;
  saw.request.shop.ripKerfMm += 1, saw.request.shop.crosscutKerfMm += 1;
  CHECK_FALSE(saw.state().holds());
  Planned gone;
  const BoardId id = gone.cutBoard().id;
  std::erase_if(gone.request.boards, [&](const Board& b) { return b.id == id; });
  CHECK(gone.state().brokenOn(id) != nullptr);
}

TEST_CASE("a change that leaves the plan standing is told, no more", "[plan-basis]") {
  Planned p;
  Mark far = knotOver(p.plan.pieces.front());
  far.kind = MarkKind::stain;
  far.onA = Ellipse{{-500, -500}, 1, 1, 0};  // off the board: nothing is cut there
  p.cutBoard().marks.push_back(far);
  p.request.parts[0].copies += 3;
  CHECK(p.state().holds());
  CHECK(p.state().changed.size() == 2);
}

TEST_CASE("a plan of an earlier version is checked all the same", "[plan-basis]") {
  Planned p;
  p.plan.extra = {};
  CHECK(p.state().holds());
  p.cutBoard().marks.push_back(knotOver(p.plan.pieces.front()));
  CHECK_FALSE(p.state().holds());
}

TEST_CASE("boards and lists too large to be meant are refused", "[plan-basis]") {
  RunControl control;
  PlanOptions options;
  options.limitSeconds = 0.3;
  PlanRequest far = randomRack({1, 3, 4, 0.8});
  far.boards[0].outline.vertices[0].at.x = 80000;
  CHECK_FALSE(makePlan(far, options, control).ok());
  PlanRequest many = randomRack({1, 3, 4, 0.8});
  many.parts.resize(100000, many.parts[0]);
  const auto refused = makePlan(many, options, control);
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.error().message.find("Split the list") != std::string::npos);
}
