// SPDX-License-Identifier: GPL-3.0-or-later
// Boards that are wetter than the shop. Coefficients: Wood Handbook (FPL-GTR-282) Table 13-5, black
// walnut 0.00190 radial and 0.00274 tangential, black cherry 0.00126 and 0.00248; ΔD = D·C·ΔM, its
// eq. 13-2. Fibre saturation at 30 % is the handbook's figure for when no better one is known (from
// memory).
#include "core/plan/drying.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/plan/checker.h"
#include "core/plan/planner.h"
#include "core/plan/spare_stock.h"
#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Board boardOf(const std::string& species, Sawn sawn, double percent) {
  Board b;
  b.id = {"board-1"};
  b.name = "1";
  b.species = species;
  b.sawn = sawn;
  b.thicknessMm = 27;
  for (const Point p : rectangle({0, 0, 1500, 240}))
    b.outline.vertices.push_back({p, 0, EdgeState::sure});
  if (percent > 0) b.moisture.push_back({percent, {}, {}, "2026-01-10", {}});
  return b;
}

PlanRequest oneBoard(const Board& board, double widthMm) {
  PlanRequest request;
  request.boards = {board};
  Part p;
  p.id = {"part-1"};
  p.name = "panel";
  p.lengthMm = 600;
  p.widthMm = widthMm;
  p.thicknessMm = 19;
  request.parts = {p};
  return request;
}

Plan planned(const PlanRequest& request) {
  RunControl control;
  const Result<Plan> plan = makePlan(request, {}, control);
  REQUIRE(plan.ok());
  CHECK(checkPlan(request, *plan).empty());
  return *plan;
}

bool remarks(const Plan& plan, const std::string& words) {
  return std::any_of(plan.remarks.begin(), plan.remarks.end(),
                     [&](const std::string& r) { return r.find(words) != std::string::npos; });
}

}  // namespace

TEST_CASE("what drying takes follows the handbook's coefficients", "[planner][drying]") {
  const Shop shop;  // 8 %
  const auto drying = [&](Sawn sawn, double percent) {
    return dryingOf(boardOf("black walnut", sawn, percent), shop);
  };
  CHECK(drying(Sawn::flat, 12).acrossShare == Approx(4 * 0.00274));
  CHECK(drying(Sawn::flat, 12).thicknessShare == Approx(4 * 0.00190));
  CHECK(drying(Sawn::quarter, 12).acrossShare == Approx(4 * 0.00190));
  CHECK(drying(Sawn::quarter, 12).thicknessShare == Approx(4 * 0.00274));
  CHECK(drying(Sawn::rift, 12).acrossShare == Approx(4 * 0.00232));
  // Not known: the greater both ways.
  CHECK(drying(Sawn::unknown, 12).acrossShare == Approx(4 * 0.00274));
  CHECK(drying(Sawn::unknown, 12).thicknessShare == Approx(4 * 0.00274));
  // The next half percent up, and no more than from fibre saturation.
  CHECK(drying(Sawn::flat, 11.6).acrossShare == Approx(4 * 0.00274));
  CHECK(drying(Sawn::flat, 45).acrossShare == Approx(22 * 0.00274));
  CHECK_FALSE(drying(Sawn::flat, 8).any());
  CHECK_FALSE(drying(Sawn::flat, 6).any());
  CHECK_FALSE(drying(Sawn::flat, 0).any());
  CHECK_FALSE(dryingOf(boardOf("boxwood", Sawn::flat, 12), shop).any());
}

TEST_CASE("a blank of wet wood is so much wider that it dries to its size", "[planner][drying]") {
  const PlanRequest request = oneBoard(boardOf("black walnut", Sawn::flat, 12), 200);
  const Plan plan = planned(request);
  REQUIRE(plan.blanks.size() == 1);
  const Blank& blank = plan.blanks[0];
  // Rough widths go up to the next millimetre.
  CHECK(blank.roughWidthMm ==
        Approx(std::ceil((200 + request.shop.widthAllowanceMm) / (1 - 4 * 0.00274))));
  CHECK(blank.takeOffAMm + blank.takeOffBMm == Approx(27 * (1 - 4 * 0.00190) - 19));
  CHECK(remarks(plan, "metered at 12 %"));
  CHECK_FALSE(remarks(plan, "figures end"));

  const Plan dry = planned(oneBoard(boardOf("black walnut", Sawn::flat, 8), 200));
  CHECK(dry.blanks[0].roughWidthMm == Approx(207));
  CHECK(dry.remarks.empty() == false);  // face B was never photographed
  CHECK_FALSE(remarks(dry, "metered"));
}

TEST_CASE("what is assumed of moisture is said once", "[planner][drying]") {
  CHECK(remarks(planned(oneBoard(boardOf("black walnut", Sawn::flat, 20), 150)), "end at 14 %"));
  CHECK(remarks(planned(oneBoard(boardOf("boxwood", Sawn::flat, 20), 150)), "no figures"));
  const Plan unmetered = planned(oneBoard(boardOf("black walnut", Sawn::flat, 0), 150));
  CHECK(std::count_if(unmetered.remarks.begin(), unmetered.remarks.end(), [](const auto& r) {
          return r.find("is not known") != std::string::npos;
        }) == 1);
}

TEST_CASE("a board that holds a part dry and not wet is not cut for it wet", "[planner][drying]") {
  // 233 + 6.4 = 239.4 of 240 mm; at 12 % it takes 242.1 mm. Thickness: 27 leaves 25.4 once flat,
  // dry from 30 % 26.5 and 24.0.
  CHECK(planned(oneBoard(boardOf("black walnut", Sawn::quarter, 8), 233)).pieces.size() == 1);
  CHECK(planned(oneBoard(boardOf("black walnut", Sawn::flat, 12), 233)).pieces.empty());
  PlanRequest thick = oneBoard(boardOf("black walnut", Sawn::flat, 8), 150);
  thick.parts[0].thicknessMm = 25;
  CHECK(planned(thick).pieces.size() == 1);
  thick.boards[0].moisture = {{30, {}, {}, "", {}}};
  CHECK(planned(thick).pieces.empty());
}

TEST_CASE("a mark keeps its clearance from the wet wood of a part", "[planner][drying]") {
  // 150 mm of dry cherry are 150 / (1 − 22·0.00248) = 158.7 mm of wood at 30 %.
  PlanRequest request = oneBoard(boardOf("cherry", Sawn::flat, 30), 150);
  const Plan plan = planned(request);
  REQUIRE(plan.pieces.size() == 1);
  const Rect box = bounds(plan.pieces[0].outline);
  const auto withMark = [&](double aboveMm) {
    PlanRequest marked = request;
    Mark m;
    m.id = {"mark-1"};
    m.kind = MarkKind::avoid;
    m.onA = rectangle({box.x0, box.y1 + aboveMm, box.x1, box.y1 + aboveMm + 1});
    marked.boards[0].marks = {m};
    marked.shop.clearanceMm[MarkKind::avoid] = 10;
    return marked;
  };
  CHECK(breaks(withMark(13.8), plan, "clear-face-a"));
  CHECK_FALSE(breaks(withMark(15.0), plan, "clear-face-a"));
}

TEST_CASE("plans of wet racks hold, and dry plans do not hold on wet ones", "[planner][drying]") {
  int wider = 0, caught = 0, tried = 0;
  for (unsigned seed = 1; seed <= 25; ++seed) {
    PlanRequest request = randomRack({4, 20, seed, 0.8});
    for (size_t b = 0; b < request.boards.size(); ++b) {
      request.boards[b].sawn = static_cast<Sawn>((seed + b) % 4);
      if ((seed + b) % 3 > 0)
        request.boards[b].moisture.push_back(
            {6.0 + static_cast<double>(seed + 5 * b), {}, {}, "", {}});
    }
    RunControl control;
    PlanOptions options;
    options.limitSeconds = 0.2;
    const Result<Plan> plan = makePlan(request, options, control);
    REQUIRE(plan.ok());
    REQUIRE(checkPlan(request, *plan).empty());
    CHECK(plan->bound >= plan->value);
    for (const Spare& spare : spareStock(request, *plan)) CHECK_FALSE(spare.piece.text.empty());
    // Each dry board in turn is found to be wet.
    for (const Blank& blank : plan->blanks) {
      const Board& board = *std::find_if(request.boards.begin(), request.boards.end(),
                                         [&](const Board& b) { return b.id == blank.board; });
      if (dryingOf(board, request.shop).any()) {
        ++wider;
        continue;
      }
      PlanRequest wetter = request;
      for (Board& b : wetter.boards)
        if (b.id == blank.board) b.moisture = {{50, {}, {}, "", {}}}, b.species = "cherry";
      for (Part& p : wetter.parts) p.species.clear();
      ++tried;
      caught += breaks(wetter, *plan, "allowance") ? 1 : 0;
    }
  }
  CHECK(wider >= 20);
  CHECK(tried >= 20);
  CHECK(caught == tried);
}
