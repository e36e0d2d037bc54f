// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/plan/checker.h"
#include "core/plan/planner.h"
#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Plan planned(const PlanRequest& request, double seconds = 0.4) {
  RunControl control;
  PlanOptions options;
  options.limitSeconds = seconds;
  const Result<Plan> plan = makePlan(request, options, control);
  REQUIRE(plan.ok());
  return plan.value();
}

std::string faults(const PlanRequest& request, const Plan& plan) {
  std::string all;
  for (const Breach& b : checkPlan(request, plan)) all += b.rule + ": " + b.message + "\n";
  return all;
}

const Piece* pieceNamed(const Plan& plan, const PieceId& id) {
  for (const Piece& p : plan.pieces)
    if (p.id == id) return &p;
  return nullptr;
}

Plan shifted(Plan plan, const BlankId& blank, Point by) {
  for (Blank& b : plan.blanks)
    if (b.id == blank) b.boardFromBlank.origin = b.boardFromBlank.origin + by;
  for (Piece& p : plan.pieces)
    if (p.blank == blank)
      for (Point& q : p.outline) q = q + by;
  return plan;
}

}  // namespace

TEST_CASE("pinned pieces stay to the last bit while the rest is planned anew", "[planner]") {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    PlanRequest request = randomRack({3, 18, seed, 0.8});
    const Plan before = planned(request);
    REQUIRE(before.pieces.size() >= 3);
    request.current = &before;
    for (size_t i = seed % 3; i < before.pieces.size(); i += 3)
      request.pinned.push_back(before.pieces[i].id);
    request.parts[0].copies += 1;
    const Plan after = planned(request);
    INFO("seed " << seed << ": " << faults(request, after));
    CHECK(checkPlan(request, after).empty());
    for (const PieceId& id : request.pinned) {
      const Piece* now = pieceNamed(after, id);
      REQUIRE(now);
      CHECK(now->outline == pieceNamed(before, id)->outline);
      CHECK(now->copy == pieceNamed(before, id)->copy);
    }
  }
}

TEST_CASE("a blank moved by hand off the planner's columns is cut free where it lies",
          "[planner]") {
  int moved = 0;
  for (unsigned seed = 1; seed <= 8; ++seed) {
    PlanRequest request = randomRack({2, 6, seed, 0.5});
    request.boards[0].marks.clear();
    const Plan before = planned(request);
    if (before.pieces.empty()) continue;
    const Piece& held = before.pieces[0];
    for (const Point by : {Point{1.3, 0.7}, Point{-3.1, 2.2}, Point{37.7, -1.1}}) {
      const Plan trial = shifted(before, held.blank, by);
      request.current = &trial;
      request.pinned = {held.id};
      RunControl control;
      PlanOptions options;
      options.limitSeconds = 0.3;
      const Result<Plan> after = makePlan(request, options, control);
      // Where it was moved may be no legal place: then the maker is told so.
      if (!after) {
        CHECK(after.error().message.find("pinned") != std::string::npos);
        continue;
      }
      CHECK(faults(request, *after).empty());
      CHECK(pieceNamed(*after, held.id)->outline == pieceNamed(trial, held.id)->outline);
      ++moved;
    }
  }
  CHECK(moved >= 5);
}

TEST_CASE("two pins that no edge-to-edge cuts can part are refused with their names", "[planner]") {
  PlanRequest request = randomRack({2, 10, 3, 0.7});
  Plan plan = planned(request);
  REQUIRE(plan.blanks.size() >= 2);
  Plan crossed = plan;
  const Blank& first = crossed.blanks[0];
  Blank& second = crossed.blanks[1];
  const Point by = first.boardFromBlank.origin - second.boardFromBlank.origin + Point{40, 5};
  second.board = first.board;
  for (Piece& p : crossed.pieces)
    if (p.blank == second.id) p.board = first.board;
  crossed = shifted(crossed, second.id, by);
  request.current = &crossed;
  for (const Piece& p : crossed.pieces)
    if (p.blank == crossed.blanks[0].id || p.blank == crossed.blanks[1].id)
      request.pinned.push_back(p.id);
  RunControl control;
  const Result<Plan> made = makePlan(request, {}, control);
  REQUIRE(!made.ok());
  CHECK(made.error().message.find("pinned") != std::string::npos);
}

TEST_CASE("after one mark has changed, boards on which the plan stands are handed on as they are",
          "[planner]") {
  PlanRequest request = randomRack({8, 30, 5, 0.8});
  const Plan before = planned(request);
  const Piece& hit = before.pieces[0];
  Mark knot;
  knot.id = {"fresh-knot"};
  knot.kind = MarkKind::knot;
  knot.through = true;
  const Rect box = bounds(hit.outline);
  knot.onA = Ellipse{{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2}, 10, 10, 0};
  for (Board& b : request.boards)
    if (b.id == hit.board) b.marks.push_back(knot);
  request.current = &before;
  Plan first;
  PlanOptions options;
  RunControl control;
  options.limitSeconds = 0.5;
  options.onBetter = [&](const Plan& plan) {
    first = plan;
    control.stop();
  };
  REQUIRE(makePlan(request, options, control).ok());
  CHECK(faults(request, first).empty());
  CHECK(!pieceNamed(first, hit.id));  // nor does another piece take its id
  for (const Piece& p : before.pieces) {
    if (p.board == hit.board) continue;
    const Piece* now = pieceNamed(first, p.id);
    REQUIRE(now);
    CHECK(now->outline == p.outline);
  }
}
