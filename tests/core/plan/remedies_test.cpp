// SPDX-License-Identifier: GPL-3.0-or-later
// Each remedy for a part that was left out is tried by planning: with the rule relaxed the part is
// placed on that board alone, and without it is not.
#include "core/plan/remedies.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "core/plan/checker.h"
#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Board plank(double length, double width) {
  Board b;
  b.id = {"board-1"};
  b.name = "1";
  b.species = "ash";
  b.thicknessMm = 27;
  for (const Point p : rectangle({0, 0, length, width}))
    b.outline.vertices.push_back({p, 0, EdgeState::sure});
  return b;
}

Part part(double length, double width) {
  Part p;
  p.id = {"part-1"};
  p.name = "Top";
  p.lengthMm = length;
  p.widthMm = width;
  p.thicknessMm = 20;
  return p;
}

Plan planned(const PlanRequest& request, double seconds = 0.2) {
  RunControl control;
  PlanOptions options;
  options.limitSeconds = seconds;
  const Result<Plan> plan = makePlan(request, options, control);
  REQUIRE(plan.ok());
  Plan told = *plan;
  addRemedies(request, told);
  return told;
}

bool fits(const Board& board, Part wanted, const Shop& shop) {
  wanted.copies = 1;
  const Plan plan = planned({{board}, {wanted}, shop, {}, {}, nullptr, {}}, 0.05);
  return plan.pieces.size() == 1;
}

const Unplaced::Remedy* find(const Unplaced& u, const std::string& rule) {
  const auto found = std::find_if(u.remedies.begin(), u.remedies.end(),
                                  [&](const Unplaced::Remedy& r) { return r.rule == rule; });
  return found == u.remedies.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("a top too wide for its board is told by how much, and that strips would do",
          "[remedies]") {
  // 200 mm of board for 205 + 6.4 mm, ripped to 212: 12 mm short, of which the allowance is 6.4.
  const Plan plan = planned({{plank(2000, 200)}, {part(800, 205)}, Shop{}, {}, {}, nullptr, {}});
  REQUIRE(plan.unplaced.size() == 1);
  const Unplaced& u = plan.unplaced[0];
  REQUIRE(u.nearest);
  CHECK(u.nearest->direction == "width");
  CHECK(u.nearest->shortByMm == Approx(12).margin(0.6));
  const Unplaced::Remedy* glue = find(u, "glue-up");
  REQUIRE(glue);
  CHECK(glue->byMm == Approx(205.0 / 2 + 2 * 1.6));
  CHECK(find(u, "width-allowance") == nullptr);
}

TEST_CASE("a few millimetres of allowance make a part fit", "[remedies]") {
  const Plan plan = planned({{plank(2000, 200)}, {part(800, 197)}, Shop{}, {}, {}, nullptr, {}});
  REQUIRE(plan.unplaced.size() == 1);
  const Unplaced::Remedy* less = find(plan.unplaced[0], "width-allowance");
  REQUIRE(less);
  CHECK(less->byMm == Approx(4).margin(0.6));  // 197 + 6.4 is ripped to 204
  Shop shop;
  shop.widthAllowanceMm -= less->byMm;
  CHECK(fits(plank(2000, 200), part(800, 197), shop));
}

TEST_CASE("a sound knot in the way is named, a loose one is not", "[remedies]") {
  for (const Soundness soundness : {Soundness::sound, Soundness::loose}) {
    Board board = plank(1000, 120);
    Mark knot;
    knot.id = {"k"};
    knot.kind = MarkKind::knot;
    knot.soundness = soundness;
    knot.onA = Ellipse{{500, 60}, 10, 10, 0};
    board.marks = {knot};
    const Plan plan = planned({{board}, {part(800, 100)}, Shop{}, {}, {}, nullptr, {}});
    REQUIRE(plan.unplaced.size() == 1);
    CHECK((find(plan.unplaced[0], "sound-knot") != nullptr) == (soundness == Soundness::sound));
  }
}

TEST_CASE("no remedy on random racks is an empty promise", "[remedies]") {
  std::map<std::string, int> tried;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    PlanRequest request = randomRack({3, 16, seed, 1.1});
    request.worth.clear();
    for (Part& p : request.parts) p.lengthMm *= seed % 2 ? 1 : 1.4;
    const Plan plan = planned(request);
    std::map<PartId, int> seen;
    for (const Unplaced& u : plan.unplaced) {
      if (seen[u.part]++) continue;
      const Part& wanted = *std::find_if(request.parts.begin(), request.parts.end(),
                                         [&](const Part& p) { return p.id == u.part; });
      // Crowded-out parts are tried on what is left over: here only what fits no whole board.
      if (std::any_of(request.boards.begin(), request.boards.end(),
                      [&](const Board& b) { return fits(b, wanted, request.shop); }))
        continue;
      for (const Unplaced::Remedy& r : u.remedies) {
        const Board& board = *std::find_if(request.boards.begin(), request.boards.end(),
                                           [&](const Board& b) { return b.id == r.board; });
        Part eased = wanted;
        Shop shop = request.shop;
        if (r.rule == "length-allowance") shop.lengthAllowanceMm -= r.byMm;
        if (r.rule == "width-allowance") shop.widthAllowanceMm -= r.byMm;
        FaceAllows& allows = r.words.find("back") != std::string::npos ? eased.back : eased.show;
        if (r.rule == "sound-knot") allows.soundKnots = true;
        if (r.rule == "filled-hole") allows.filledHoles = true;
        if (r.rule == "stain") allows.stain = true;
        if (r.rule == "sapwood") allows.sapwood = SapwoodRule::yes;
        if (r.rule == "grain") eased.grainToleranceDeg += 5;
        if (r.rule == "glue-up") {
          eased.widthMm = r.byMm;  // one of the strips at least
        }
        INFO("seed " << seed << ", " << u.part.text << ": " << r.rule << " on " << board.name);
        CHECK(fits(board, eased, shop));
        ++tried[r.rule];
      }
    }
  }
  int all = 0;
  for (const auto& [rule, count] : tried) {
    INFO(rule << " " << count);
    all += count;
  }
  CHECK(all >= 8);
}
