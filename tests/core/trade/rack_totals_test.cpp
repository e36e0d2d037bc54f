// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/rack_totals.h"

#include <catch2/catch.hpp>

using namespace rackside;

namespace {
constexpr double in = 25.4, ft = 304.8;

Board plank(const char* name, const char* species, double widthMm, double lengthMm, double thick) {
  Board b;
  b.id.text = std::string("board-") + name;
  b.name = name;
  b.species = species;
  b.thicknessMm = thick;
  for (const Point p : rectangle({0, 0, lengthMm, widthMm}))
    b.outline.vertices.push_back({p, 0, {}});
  b.lengthMm = {lengthMm, 0, 0};
  b.pricePerBoardFoot = 10;
  return b;
}

Piece piece(const Board& board, const char* part, double x0, double lengthMm, double widthMm) {
  Piece p;
  p.board = board.id;
  p.part.text = part;
  p.outline = rectangle({x0, 0, x0 + lengthMm, widthMm});
  return p;
}
}  // namespace

TEST_CASE("waste is said both ways, and the two are not the same") {
  // woodmagazine.com: buying 50 % more is 33 % waste; for 30 % waste buy 142.9 per 100.
  CHECK(wasteForMarkUp(0.5) == Approx(1.0 / 3));
  CHECK(100 * (1 + markUpForWaste(0.3)) == Approx(142.9).margin(0.05));
  for (const double waste : {0.0, 0.15, 0.2, 0.3, 0.9})
    CHECK(wasteForMarkUp(markUpForWaste(waste)) == Approx(waste));
  CHECK_THROWS_AS(markUpForWaste(1), std::logic_error);
}

TEST_CASE("a bundle sums surface measures before the thickness") {
  // goodwoodcorp.com, HardwoodGrading. Two 5/4 boards of 8 and 4 ft²: 12 · 1.25 = 15 board feet.
  Rack rack;
  rack.boards = {plank("a", "cherry", 8 * in, 12 * ft, 1.25 * in),
                 plank("b", "cherry", 6.5 * in, 8 * ft, 1.25 * in),
                 plank("c", "ash", 12 * in, 10 * ft, 1.0 * in)};
  rack.boards[1].species = "American Cherry";  // one wood, whatever it is called
  Shop shop;
  shop.shopMoisturePercent = 12;
  const auto all = totals(tallyLines(rack), shop);
  REQUIRE(all.size() == 2);
  const TallyTotals &cherry = all[0], &ash = all[1];
  CHECK(ash.species == "ash");
  CHECK(ash.boardFeet == Approx(10));
  CHECK(ash.boardFeetExact == Approx(10));
  // 1 in × 12 in × 10 ft in cubic metres, by the inch of 25.4 mm.
  CHECK(ash.volumeM3 == Approx(0.0254 * 0.3048 * 3.048));
  // 10 board feet of ash at 12 %: 0.60 · 62.43 · 1.12 / 12 lb each.
  CHECK(ash.weightKg == Approx(10 * 0.60 * 62.43 * 1.12 / 12 * 0.45359237).epsilon(1e-6));
  CHECK(cherry.pieces == 2);
  CHECK(cherry.surfaceMeasureFt2 == 12);
  CHECK(cherry.boardFeet == Approx(15));
  CHECK(cherry.price == Approx(150));
  rack.boards[2].species = "unobtanium";
  CHECK_FALSE(totals(tallyLines(rack), shop)[1].weightKnown);
}

TEST_CASE("the parts pay for the board between them") {
  Rack rack;
  rack.boards = {plank("a", "cherry", 12 * in, 10 * ft, 1.0 * in)};
  Plan plan;
  plan.pieces = {piece(rack.boards[0], "seat", 0, 1000, 200),
                 piece(rack.boards[0], "rail", 1000, 500, 100),
                 piece(rack.boards[0], "rail", 1500, 500, 100)};
  const auto cost = costOfParts(rack, plan);
  CHECK(cost.at(PartId{"seat"}) == Approx(100 * 2.0 / 3));
  CHECK(cost.at(PartId{"rail"}) == Approx(100 * 1.0 / 3));
  const Yield yield = yieldOf(rack, plan);
  CHECK(yield.neededMm2 == Approx(300000));
  CHECK(yield.yieldShare() == Approx(300000 / (12 * in * 10 * ft)));
  CHECK(yield.markUpOnNeeded() == Approx(markUpForWaste(yield.wasteShare())));
  CHECK(yieldOf(rack, Plan{}).wasteShare() == 0);
}

TEST_CASE("a tally goes out and comes in as a table") {
  Rack rack;
  rack.boards = {plank("a, wide", "cherry", 203.2, 3657.6, 31.8)};
  const auto lines = tallyLines(rack);
  const auto back = tallyFromCsv(tallyToCsv(lines), UnitSystem::millimetres);
  REQUIRE(back.ok());
  REQUIRE(back->size() == 1);
  CHECK(back->at(0).name == "a, wide");
  CHECK(back->at(0).lengthMm == Approx(3657.6));
  CHECK(totals(*back, {})[0].boardFeet == totals(lines, {})[0].boardFeet);
  const auto inches = tallyFromCsv(
      "species,pieces,length,width,thickness\ncherry,3,12 ft,8,1 1/4\n", UnitSystem::inches);
  REQUIRE(inches.ok());
  CHECK(totals(*inches, {})[0].boardFeet == Approx(30));
  const auto bad =
      tallyFromCsv("species,length,width,thickness\ncherry,long,8,1\n", UnitSystem::inches);
  REQUIRE_FALSE(bad.ok());
  CHECK(bad.error().message.find("Row 2, column \"length\"") != std::string::npos);
  CHECK_FALSE(tallyFromCsv("species,length\ncherry,100\n", UnitSystem::inches).ok());
}

TEST_CASE("a tally's table takes the trade's words and refuses what it does not know") {
  const auto said = tallyFromCsv("wood,qty,length,width,thickness\nCherry,2,8 ft,6 in,8/4\n",
                                 UnitSystem::millimetres);
  REQUIRE(said.ok());
  CHECK(said->at(0).pieces == 2);
  CHECK(said->at(0).thicknessSaid == "8/4");
  CHECK(said->at(0).thicknessMm == Approx(50.8));
  CHECK(totals(*said, {})[0].boardFeet == Approx(16));
  const auto refused = [](const char* csv, const char* word) {
    const auto lines = tallyFromCsv(csv, UnitSystem::millimetres);
    REQUIRE_FALSE(lines.ok());
    CAPTURE(csv, lines.error().message);
    CHECK(lines.error().message.find(word) != std::string::npos);
  };
  refused("species,length,width,thicknes\ncherry,2400,200,27\n", "\"thicknes\" is not known");
  refused("length,width,thickness,pieces\n2400,200,27,99999999999\n", "pieces");
  refused("length,width,thickness,price\n2400,200,27,inf\n", "price");
  refused("length,width,thickness,price\n2400,200,27,nan\n", "price");
  refused("length,width,thickness\n2400,200,9/4\n", "no thickness that lumber is sawn to");
  refused("length;width;thickness\n1.200;200;27\n", "thousands or decimals");
  // Half feet go up and down in turn: 6 in × 9 ft is 4.5.
  const auto halves =
      tallyFromCsv("qty,length,width,thickness\n4,9 ft,6 in,4/4\n", UnitSystem::millimetres);
  CHECK(tallyOf(*halves, {})[0].surfaceMeasureFt2 == 18);
}
