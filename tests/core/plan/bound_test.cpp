// SPDX-License-Identifier: GPL-3.0-or-later
// The bound against plans that were not made by the planner.
#include <catch2/catch.hpp>

#include "core/plan/checker.h"
#include "core/plan/planner.h"
#include "free_search.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Plan planned(const PlanRequest& request, double seconds) {
  PlanOptions options;
  options.limitSeconds = seconds;
  RunControl control;
  const Result<Plan> plan = makePlan(request, options, control);
  INFO((plan ? "" : plan.error().message));
  REQUIRE(plan.ok());
  CHECK(checkPlan(request, *plan).empty());
  return *plan;
}

PlanRequest oneBoard(double lengthMm, double widthMm) {
  PlanRequest request;
  Board board;
  board.id = {"board"};
  board.name = "1";
  board.thicknessMm = 27;
  for (const Point p : rectangle({0, 0, lengthMm, widthMm}))
    board.outline.vertices.push_back({p, 0.3, EdgeState::sure});
  request.boards.push_back(board);
  return request;
}

Part part(double lengthMm, double widthMm, int copies) {
  Part p;
  p.id = {"part"};
  p.name = "part";
  p.lengthMm = lengthMm;
  p.widthMm = widthMm;
  p.thicknessMm = 20;
  p.copies = copies;
  p.showing = Showing::oneFace;
  return p;
}

Mark round(const std::string& id, MarkKind kind, Point at, double radiusMm) {
  Mark m;
  m.id = {id};
  m.kind = kind;
  m.onA = Ellipse{at, radiusMm, radiusMm, 0};
  return m;
}

}  // namespace

TEST_CASE("no plan by chance is worth more than the bound", "[planner][bound]") {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const PlanRequest request = freeRack(seed);
    const Plan plan = planned(request, 0.25);
    const double found = freeSearch(request, 60, seed);
    INFO("seed " << seed << ": found " << found << ", planned " << plan.value << ", bound "
                 << plan.bound);
    CHECK(found <= plan.bound * (1 + 1e-9));
  }
}

TEST_CASE("a rail lies along the lane between two knots", "[planner][bound]") {
  PlanRequest request = oneBoard(2000, 150);
  // The lane between them rises by 1.1 degrees: straight or along the edges there is no room.
  request.boards[0].marks = {round("low", MarkKind::knot, {1600, 30}, 12),
                             round("high", MarkKind::knot, {300, 119}, 12)};
  request.parts = {part(1700, 70, 1)};
  const Plan plan = planned(request, 2);
  CHECK(plan.pieces.size() == 1);
  CHECK(plan.bound >= 1700.0 * 70);
}

TEST_CASE("a blank holds as many copies as its part has", "[planner][bound]") {
  // Each blank costs an allowance of length: only one long one leaves room for all.
  PlanRequest request = oneBoard(900, 60);
  request.parts = {part(60, 40, 12)};
  const Plan plan = planned(request, 2);
  CHECK(plan.pieces.size() == 12);
  CHECK(plan.bound >= 12 * 60.0 * 40 * (1 - 1e-9));
}

TEST_CASE("a hole shallower than what is milled off bars nothing", "[planner][bound]") {
  PlanRequest request = oneBoard(1000, 100);
  Mark hole = round("hole", MarkKind::holeToFill, {500, 50}, 6);
  hole.depthMm = 1.5;
  hole.depthFrom = Face::A;
  request.boards[0].marks = {hole};
  request.parts = {part(700, 80, 1)};
  request.parts[0].thicknessMm = 23.4;
  CHECK(planned(request, 2).pieces.size() == 1);
}
