// SPDX-License-Identifier: GPL-3.0-or-later
// Parts that are too small to go through the machines alone.
#include "core/plan/gangs.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <random>

#include "core/plan/checker.h"
#include "core/plan/planner.h"
#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Part part(const std::string& name, double lengthMm, double widthMm, int copies = 1) {
  Part p;
  p.id = {"part-" + name};
  p.name = name;
  p.lengthMm = lengthMm;
  p.widthMm = widthMm;
  p.thicknessMm = 19;
  p.copies = copies;
  return p;
}

PlanRequest requestOf(const std::vector<Part>& parts, double lengthMm = 1500) {
  PlanRequest request;
  Board b;
  b.id = {"board-1"};
  b.name = "1";
  b.thicknessMm = 27;
  for (const Point p : rectangle({0, 0, lengthMm, 160}))
    b.outline.vertices.push_back({p, 0, EdgeState::sure});
  request.boards = {b};
  request.parts = parts;
  return request;
}

Plan planned(const PlanRequest& request, double seconds = 2) {
  RunControl control;
  PlanOptions options;
  options.limitSeconds = seconds;
  const Result<Plan> plan = makePlan(request, options, control);
  REQUIRE(plan.ok());
  for (const Breach& b : checkPlan(request, *plan)) FAIL_CHECK(b.rule + ": " + b.message);
  return *plan;
}

std::map<BlankId, std::vector<const Piece*>> byBlank(const Plan& plan) {
  std::map<BlankId, std::vector<const Piece*>> all;
  for (const Piece& p : plan.pieces) all[p.blank].push_back(&p);
  return all;
}

bool hasRemark(const Blank& blank, const std::string& words) {
  return std::any_of(blank.remarks.begin(), blank.remarks.end(),
                     [&](const std::string& r) { return r.find(words) != std::string::npos; });
}

}  // namespace

TEST_CASE("short parts of one width are ganged end to end", "[planner][gangs]") {
  // 130 + 150 mm with a kerf and the length allowance: 130 + 3.2 + 150 + 25 = 308.2 ≥ 305.
  const PlanRequest request = requestOf({part("block", 130, 60), part("stop", 150, 60)});
  const Plan plan = planned(request);
  REQUIRE(plan.pieces.size() == 2);
  REQUIRE(plan.blanks.size() == 1);
  CHECK(plan.blanks[0].roughLengthMm >= 308.2 - 1e-6);
  CHECK(plan.blanks[0].roughLengthMm < 320);
  CHECK(hasRemark(plan.blanks[0], "milled as one"));
  CHECK_FALSE(hasRemark(plan.blanks[0], "waste wood"));
  CHECK(plan.pieces[0].id != plan.pieces[1].id);
  CHECK(plan.value == Approx(130 * 60 + 150 * 60));
}

TEST_CASE("narrow parts are ganged side by side", "[planner][gangs]") {
  // 12 + 6.4 is less than 25 mm; 12 + 3.2 + 12 + 6.4 = 33.6 is not, and is ripped to 34.
  const PlanRequest request = requestOf({part("lath", 700, 12, 4)});
  const Plan plan = planned(request);
  REQUIRE(plan.pieces.size() == 4);
  CHECK(plan.blanks.size() <= 2);
  for (const Blank& blank : plan.blanks) {
    CHECK(blank.roughWidthMm == Approx(34));
    CHECK(hasRemark(blank, "milled as one"));
  }
}

TEST_CASE("what has nothing to be ganged with is padded with waste", "[planner][gangs]") {
  const PlanRequest request = requestOf({part("wedge", 90, 40)});
  const Plan plan = planned(request);
  REQUIRE(plan.blanks.size() == 1);
  CHECK(plan.blanks[0].roughLengthMm >= request.shop.shortestSafeMm);
  CHECK(hasRemark(plan.blanks[0], "waste wood"));
  // Alone it would be legal in a machine whose manual allows 115 mm.
  PlanRequest other = request;
  other.shop.shortestSafeMm = 115;
  CHECK_FALSE(hasRemark(planned(other).blanks[0], "waste wood"));
}

TEST_CASE("only like parts are ganged", "[planner][gangs]") {
  const Shop shop;
  const auto gangs = [&](const Part& a, const Part& b) {
    return gangsFor({a, b}, {a.copies, b.copies}, shop).size();
  };
  const Part block = part("block", 130, 60);
  CHECK(gangs(block, part("stop", 150, 60)) == 1);
  CHECK(gangs(block, part("stop", 150, 61)) == 0);
  Part other = part("stop", 150, 60);
  other.thicknessMm = 22;
  CHECK(gangs(block, other) == 0);
  other = part("stop", 150, 60);
  other.species = "ash";
  CHECK(gangs(block, other) == 0);
  other = part("stop", 150, 60);
  other.show.soundKnots = true;
  CHECK(gangs(block, other) == 0);
  CHECK(gangs(block, part("rail", 500, 60)) == 0);  // long enough by itself
  // Copies that make a safe length of their own are an ordinary blank.
  CHECK(gangs(part("block", 140, 60, 2), part("stop", 150, 60, 4)) == 0);
}

TEST_CASE("a gang with no place is dissolved", "[planner][gangs]") {
  // Between the trimmed ends are 400 mm with a knot at 160 mm, which the gang's 283 mm of wood meet
  // wherever its blank of 308 mm lies; the 130 mm in the middle of a blank of 305 mm need not.
  PlanRequest request = requestOf({part("block", 130, 60), part("stop", 150, 60)}, 500);
  for (OutlineVertex& v : request.boards[0].outline.vertices) v.at.y *= 80.0 / 160;
  Mark knot;
  knot.id = {"mark-1"};
  knot.kind = MarkKind::knot;
  knot.onA = rectangle({160, 0, 170, 80});
  request.boards[0].marks = {knot};
  const Plan plan = planned(request);
  CHECK(plan.pieces.size() == 1);
  REQUIRE(plan.unplaced.size() == 1);
  CHECK_FALSE(plan.unplaced[0].why.empty());
}

TEST_CASE("a pinned gang stays as it is, and a replan keeps it", "[planner][gangs]") {
  PlanRequest request = requestOf({part("block", 130, 60, 2), part("stop", 150, 60),
                                   part("rail", 600, 70), part("lath", 700, 12, 3)});
  const Plan before = planned(request);
  REQUIRE(before.pieces.size() == 7);
  PlanRequest again = request;
  again.current = &before;
  const auto held = byBlank(before);
  const auto gang = std::find_if(held.begin(), held.end(), [](const auto& blank) {
    return blank.second.size() > 1 && blank.second[0]->part != blank.second.back()->part;
  });
  REQUIRE(gang != held.end());
  again.pinned = {gang->second.back()->id};
  const Plan after = planned(again);  // the rule about pins is among the checker's
  CHECK(after.pieces.size() == 7);
  for (const Piece* was : gang->second)
    CHECK(std::any_of(after.pieces.begin(), after.pieces.end(), [&](const Piece& p) {
      return p.id == was->id && p.copy == was->copy && p.blank == was->blank;
    }));
  // Another copy is wanted: what stands stands.
  PlanRequest more = request;
  more.current = &before;
  more.parts[2].copies = 2;
  CHECK(planned(more).pieces.size() == 8);
}

TEST_CASE("random small parts are never planned alone, and all copies are told",
          "[planner][gangs]") {
  int mixed = 0, sideBySide = 0;
  for (unsigned seed = 1; seed <= 20; ++seed) {
    std::mt19937 dice(seed);
    PlanRequest request = randomRack({3, 12, seed, 0.6});
    const double widths[] = {14, 40, 55};
    for (int i = 0; i < 6; ++i) {
      Part p = part("small " + std::to_string(i), 60 + 20.0 * (dice() % 8), widths[dice() % 3],
                    1 + static_cast<int>(dice() % 4));
      p.species = dice() % 2 ? "cherry" : "";
      p.back = request.parts[0].back;
      request.parts.push_back(p);
    }
    const Plan plan = planned(request, 0.3);
    for (const auto& blank : byBlank(plan)) {
      const auto& pieces = blank.second;
      const bool different = std::any_of(
          pieces.begin(), pieces.end(), [&](const Piece* p) { return p->part != pieces[0]->part; });
      mixed += different ? 1 : 0;
      sideBySide += pieces.size() > 1 && pieces[0]->widthMm < 18 ? 1 : 0;
    }
    CHECK(plan.bound >= plan.value);
  }
  CHECK(mixed >= 10);
  CHECK(sideBySide >= 10);
}

TEST_CASE("the checker sees what is wrong with a gang", "[planner][gangs]") {
  const PlanRequest request = requestOf({part("block", 130, 60), part("stop", 150, 60)});
  const Plan plan = planned(request);
  {
    Plan close = plan;
    for (Point& q : close.pieces[1].outline) q.x += q.x > close.pieces[0].outline[0].x ? -1 : 1;
    CHECK(breaks(request, close, "parting"));
  }
  {
    // Four pieces like the vanes of a mill: each pair is apart, no straight cut parts them.
    PlanRequest vanes = requestOf({part("vane", 100, 50, 4)});
    vanes.shop.shortestSafeMm = 100;
    Plan wheel = planned(vanes);
    REQUIRE(wheel.pieces.size() == 4);
    wheel.blanks.resize(1);
    const Pose at = wheel.blanks[0].boardFromBlank;
    const Rect boxes[] = {
        {0, 0, 100, 50}, {104, 0, 154, 100}, {54, 104, 154, 154}, {0, 54, 50, 154}};
    for (size_t i = 0; i < 4; ++i) {
      wheel.pieces[i].blank = wheel.blanks[0].id;
      wheel.pieces[i].outline = rackside::apply(at, rectangle(boxes[i]));
    }
    CHECK(breaks(vanes, wheel, "parting"));
  }
  {
    // A mark that one of the two may not hold.
    PlanRequest marked = request;
    Mark knot;
    knot.id = {"mark-1"};
    knot.kind = MarkKind::knot;
    knot.soundness = Soundness::sound;
    const Rect box = bounds(plan.pieces[1].outline);
    knot.onA = Ellipse{{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2}, 5, 5, 0};
    marked.boards[0].marks = {knot};
    marked.parts[0].show.soundKnots = true;
    CHECK(breaks(marked, plan, "clear-face-a"));
    marked.parts[1].show.soundKnots = true;
    CHECK_FALSE(breaks(marked, plan, "clear-face-a"));
  }
}

TEST_CASE("with gangs the whole time is used", "[planner][gangs]") {
  PlanRequest request = randomRack({8, 60, 3, 0.9, false});
  request.parts.push_back(part("block", 130, 60, 4));
  request.parts.push_back(part("stop", 150, 60, 4));
  const double seconds = 1.5;
  const Plan plan = planned(request, seconds);
  REQUIRE(plan.stopped == "the time was up");
  CHECK(plan.seconds > 0.9 * seconds);
}
