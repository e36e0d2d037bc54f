// SPDX-License-Identifier: GPL-3.0-or-later
// Panels glued up from strips.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "core/plan/checker.h"
#include "core/plan/panel_strips.h"
#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Board plank(const std::string& id, double length, double width) {
  Board b;
  b.id = {id};
  b.name = id;
  b.species = "ash";
  b.thicknessMm = 27;
  for (const Point p : rectangle({0, 0, length, width}))
    b.outline.vertices.push_back({p, 0, EdgeState::sure});
  return b;
}

Part top(double length, double width, double leastStrip = 60, double greatestStrip = 200) {
  Part p;
  p.id = {"top"};
  p.name = "Top";
  p.lengthMm = length;
  p.widthMm = width;
  p.thicknessMm = 20;
  p.glueUp = {true, leastStrip, greatestStrip};
  return p;
}

Plan planned(const PlanRequest& request, double seconds = 0.6) {
  RunControl control;
  PlanOptions options;
  options.limitSeconds = seconds;
  const Result<Plan> plan = makePlan(request, options, control);
  if (!plan) INFO(plan.error().message);
  REQUIRE(plan.ok());
  std::string faults;
  for (const Breach& b : checkPlan(request, *plan)) faults += b.rule + ": " + b.message + "\n";
  INFO(faults);
  CHECK(faults.empty());
  return *plan;
}

}  // namespace

TEST_CASE("a top wider than any board is made of strips that come out at its width", "[panel]") {
  const Plan plan =
      planned({{plank("a", 2000, 200)}, {top(800, 300)}, Shop{}, {}, {}, nullptr, {}});
  REQUIRE(plan.panels.size() == 1);
  const PlannedPanel& panel = plan.panels[0];
  REQUIRE(panel.strips.size() == 2);
  CHECK(plan.unplaced.empty());
  double width = 0;
  for (const Piece& p : plan.pieces) {
    CHECK(p.kind == PieceKind::panelStrip);
    CHECK(p.lengthMm == 800);
    width += p.widthMm;
  }
  // One joint: 1.6 mm off each of its two edges.
  CHECK(width - 2 * 1.6 == Approx(300));
  CHECK(plan.value == Approx(800 * 300));
}

TEST_CASE("a top wider than the planer is glued in parts that go through it", "[panel]") {
  const Plan plan = planned({{plank("a", 2400, 210), plank("b", 2400, 210)},
                             {top(700, 560)},
                             Shop{},
                             {},
                             {},
                             nullptr,
                             {}});
  REQUIRE(plan.panels.size() == 1);
  const PlannedPanel& panel = plan.panels[0];
  REQUIRE(panel.subPanelStarts.size() >= 2);
  std::vector<int> ends(panel.subPanelStarts.begin() + 1, panel.subPanelStarts.end());
  ends.push_back(static_cast<int>(panel.strips.size()));
  for (size_t i = 0; i < ends.size(); ++i) {
    const int strips = ends[i] - panel.subPanelStarts[i];
    CHECK(strips >= 1);
    CHECK(strips * plan.pieces[0].widthMm - 2 * 1.6 * (strips - 1) <= Shop{}.planerWidthMm);
  }
  CHECK_FALSE(panel.remarks.empty());
}

TEST_CASE("a panel that cannot be whole leaves its wood to other parts", "[panel]") {
  // One strip of 151.6 mm would fit, the other would not; rails take the board instead.
  Part rail = top(400, 60);
  rail.id = {"rail"};
  rail.glueUp.allowed = false;
  rail.copies = 2;
  const Plan plan =
      planned({{plank("a", 1200, 165)}, {top(900, 300), rail}, Shop{}, {}, {}, nullptr, {}});
  CHECK(plan.panels.empty());
  CHECK(plan.pieces.size() == 2);
  REQUIRE(plan.unplaced.size() == 1);
  CHECK(plan.unplaced[0].part.text == "top");
}

TEST_CASE("a board that is wide enough gives the top in one piece", "[panel]") {
  const Plan plan =
      planned({{plank("a", 1200, 330)}, {top(900, 300)}, Shop{}, {}, {}, nullptr, {}});
  REQUIRE(plan.pieces.size() == 1);
  CHECK(plan.pieces[0].kind == PieceKind::part);
  CHECK(plan.panels.empty());
}

TEST_CASE("strips with sapwood lie at the panel's edges", "[panel]") {
  Mark sap;
  sap.id = {"sap"};
  sap.kind = MarkKind::sapwood;
  sap.onA = rectangle({0, 0, 3000, 30});
  // Two strips of 102.4 mm from each board, one of them with sapwood.
  Board first = plank("a", 3000, 230), second = plank("b", 3000, 230);
  first.marks = second.marks = {sap};
  Part part = top(2800, 400, 60, 120);
  part.show.sapwood = SapwoodRule::yes;
  const Plan plan = planned({{first, second}, {part}, Shop{}, {}, {}, nullptr, {}});
  REQUIRE(plan.panels.size() == 1);
  const auto& strips = plan.panels[0].strips;
  REQUIRE(strips.size() == 4);
  int withSapwood = 0;
  for (size_t i = 0; i < strips.size(); ++i) {
    const Piece& p = *std::find_if(plan.pieces.begin(), plan.pieces.end(),
                                   [&](const Piece& q) { return q.id == strips[i]; });
    if (bounds(p.outline).y0 > 29) continue;
    ++withSapwood;
    CHECK((i == 0 || i + 1 == strips.size()));
    // It is along the board's near edge: outwards as it lies at the near side of the panel (face A
    // up), turned end for end at the far one.
    const auto& turned = plan.panels[0].turned;
    const bool isTurned = std::find(turned.begin(), turned.end(), p.id) != turned.end();
    CHECK(isTurned == ((i == 0) != (p.showFace == Face::A)));
  }
  CHECK(withSapwood == 2);
}

TEST_CASE("strips of boards that are sawn alike and of like tone make one panel", "[panel]") {
  // Four boards, one strip from each, two panels of two strips.
  std::vector<Board> boards;
  for (const char* id : {"a", "b", "c", "d"}) boards.push_back(plank(id, 1000, 175));
  Part part = top(800, 300, 120);
  part.copies = 2;
  const auto partners = [&](const PlanRequest& request) {
    const Plan plan = planned(request);
    std::map<std::string, std::string> with;
    REQUIRE(plan.panels.size() == 2);
    for (const PlannedPanel& panel : plan.panels) {
      std::vector<std::string> on;
      for (const PieceId& id : panel.strips)
        for (const Piece& p : plan.pieces)
          if (p.id == id) on.push_back(p.board.text);
      REQUIRE(on.size() == 2);
      with[on[0]] = on[1], with[on[1]] = on[0];
    }
    return with;
  };
  PlanRequest request{boards, {part}, Shop{}, {}, {}, nullptr, {}};
  request.tones = {{{"a"}, {4.2, 0}}, {{"b"}, {3.1, 0}}, {{"c"}, {4.1, 0}}, {{"d"}, {3.2, 0}}};
  CHECK(partners(request)["a"] == "c");
  // Ring direction comes before tone.
  request.boards[0].sawn = request.boards[3].sawn = Sawn::quarter;
  request.boards[1].sawn = request.boards[2].sawn = Sawn::flat;
  CHECK(partners(request)["a"] == "d");
}

TEST_CASE("panels on random racks are whole, of one wood, and worth having", "[panel]") {
  int panels = 0;
  for (unsigned seed = 1; seed <= 6; ++seed) {
    const PlanRequest request = randomRack({5, 16, seed, 0.8, false, true});
    const Plan plan = planned(request, 1.0);
    panels += static_cast<int>(plan.panels.size());
    CHECK(plan.bound >= plan.value);
  }
  CHECK(panels >= 3);
}

TEST_CASE("a panel planned before stays the panel it was", "[panel]") {
  PlanRequest request{
      {plank("a", 2000, 200), plank("b", 2000, 200)}, {top(800, 300)}, Shop{}, {}, {}, nullptr, {}};
  request.parts[0].copies = 2;
  const Plan before = planned(request);
  REQUIRE(before.panels.size() == 2);
  request.current = &before;
  for (const Piece& p : before.pieces) request.pinned.push_back(p.id);
  const Plan after = planned(request);
  REQUIRE(after.panels.size() == 2);
  for (const PlannedPanel& was : before.panels)
    CHECK(std::any_of(after.panels.begin(), after.panels.end(), [&](const PlannedPanel& p) {
      return p.copy == was.copy && p.strips == was.strips;
    }));
}

TEST_CASE("a defect in a strip that is cut costs that strip, not the panel", "[panel]") {
  PlanRequest request{{plank("a", 1000, 200), plank("b", 1000, 200), plank("c", 1000, 200)},
                      {top(800, 300, 120)},
                      Shop{},
                      {},
                      {},
                      nullptr,
                      {}};
  Plan before = planned(request);
  REQUIRE(before.panels.size() == 1);
  const Piece good = before.pieces[0], bad = before.pieces[1];
  REQUIRE(good.board != bad.board);
  for (Cut& cut : before.cuts) cut.made = true;
  Mark split;
  split.id = {"split"};
  split.kind = MarkKind::split;
  split.through = true;
  const Rect box = bounds(bad.outline);
  split.onA = split.onB =
      Stroke{{{box.x0 + 100, (box.y0 + box.y1) / 2}, {box.x1 - 100, (box.y0 + box.y1) / 2}}, 2};
  for (Board& b : request.boards)
    if (b.id == bad.board) b.marks.push_back(split);
  request.current = &before;
  const Plan after = planned(request);
  REQUIRE(after.panels.size() == 1);
  int kept = 0;
  for (const Piece& p : after.pieces) {
    kept += p.id == good.id && p.outline == good.outline ? 1 : 0;
    CHECK_FALSE((p.board == bad.board && p.outline == bad.outline));
  }
  CHECK(kept == 1);
}
