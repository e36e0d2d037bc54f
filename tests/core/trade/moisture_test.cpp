// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/moisture.h"

#include <catch2/catch.hpp>

#include "core/trade/moving_parts.h"

using namespace rackside;

TEST_CASE("equilibrium moisture agrees with the handbook's table") {
  // Wood Handbook FPL-GTR-190, Table 4-2; at 30, 50, 65, 80 and 90 % relative humidity. The table
  // is printed to 0.1 and its equation differs from it by up to 0.062, so 0.07.
  struct Row {
    double fahrenheit;
    double percent[5];
  };
  const double humidity[] = {30, 50, 65, 80, 90};
  for (const Row& row :
       {Row{30, {6.3, 9.5, 12.4, 16.5, 21.0}}, Row{70, {6.2, 9.2, 12.0, 16.0, 20.5}},
        Row{100, {5.8, 8.7, 11.2, 15.1, 19.5}}})
    for (int i = 0; i < 5; ++i) {
      CAPTURE(row.fahrenheit, humidity[i]);
      const auto emc = equilibriumMoisturePercent((row.fahrenheit - 32) / 1.8, humidity[i]);
      REQUIRE(emc.ok());
      CHECK(std::abs(*emc - row.percent[i]) <= 0.07);
    }
  // The same table at 70 °F and 85 %: 17.9.
  CHECK(std::abs(*equilibriumMoisturePercent(38 / 1.8, 85) - 17.9) <= 0.07);
}

TEST_CASE("the handbook's equation for degrees Fahrenheit gives the same") {
  // GTR-282 eq. 4-5 in its other units, written apart from the program; the two published sets of
  // coefficients are each rounded, so they differ in the second decimal.
  for (double f = 30; f <= 130; f += 10)
    for (double h = 0.05; h <= 0.951; h += 0.05) {
      const double w = 330 + 0.452 * f + 0.00415 * f * f;
      const double k = 0.791 + 0.000463 * f - 0.000000844 * f * f;
      const double k1 = 6.34 + 0.000775 * f - 0.0000935 * f * f;
      const double k2 = 1.09 + 0.0284 * f - 0.0000904 * f * f;
      const double x = k * h;
      const double emc =
          1800 / w *
          (x / (1 - x) + (k1 * x + 2 * k1 * k2 * x * x) / (1 + k1 * x + k1 * k2 * x * x));
      CHECK(*equilibriumMoisturePercent((f - 32) / 1.8, h * 100) == Approx(emc).margin(0.06));
    }
}

TEST_CASE("air out of range is refused") {
  CHECK_FALSE(equilibriumMoisturePercent(20, 101).ok());
  CHECK_FALSE(equilibriumMoisturePercent(20, -1).ok());
  CHECK_FALSE(equilibriumMoisturePercent(200, 50).ok());
  CHECK_FALSE(equilibriumMoisturePercent(NAN, 50).ok());
}

TEST_CASE("movement follows the published examples") {
  // Wood Handbook eq. 13-2, worked example (value from memory): white fir 9.15 in, C 0.00245,
  // 8 → 11 % gives 0.067 in.
  CHECK(dimensionChangeMm(9.15, 0.00245, 8, 11) == Approx(0.067).margin(0.0005));
  // flooringartists.com, dimensional change: 5 in, C 0.00129, 3 points → 0.019 in.
  CHECK(dimensionChangeMm(5, 0.00129, 8, 11) == Approx(0.019).margin(0.0005));
  // Eq. 13-2 on 12 in from 10 to 5 %: walnut 10.5, cherry 9.5, red oak 14.2, hickory 15.8 of 1/64
  // in (worked out from the handbook's coefficients; a trade leaflet gives other figures).
  const auto in64ths = [](const char* wood) {
    return -64 * dimensionChangeMm(12, changeOf(*speciesNamed(wood)).tangential->value, 10, 5);
  };
  CHECK(in64ths("walnut") == Approx(10.5).margin(0.05));
  CHECK(in64ths("cherry") == Approx(9.5).margin(0.05));
  CHECK(in64ths("red oak") == Approx(14.2).margin(0.05));
  CHECK(in64ths("hickory") == Approx(15.8).margin(0.05));
}

TEST_CASE("the way a board was sawn decides the coefficient") {
  const Species& cherry = *speciesNamed("cherry");
  CHECK(widthCoefficient(cherry, Sawn::flat) == 0.00248);
  CHECK(widthCoefficient(cherry, Sawn::quarter) == 0.00126);
  CHECK(*widthCoefficient(cherry, Sawn::rift) == Approx(0.00187));
  CHECK(widthCoefficient(cherry, Sawn::unknown) == 0.00248);
}

TEST_CASE("wide parts are told how they move, by their boards' own sawing") {
  Rack rack;
  Board board;
  board.id.text = "b";
  board.species = "Cherry";
  board.sawn = Sawn::flat;
  rack.boards = {board};
  const auto part = [&rack](const char* name, double widthMm, const char* species) {
    Part p;
    p.id.text = p.name = name;
    p.widthMm = widthMm;
    p.species = species;
    rack.parts.push_back(p);
  };
  part("Seat", 400, "american cherry");
  part("Leg", 45, "");
  part("Odd", 400, "unobtanium");
  const MovingParts flat = movingParts(rack, Seasons{});
  REQUIRE(flat.parts.size() == 1);
  CHECK(flat.parts[0].movement.swellsMm == Approx(400 * 0.00248 * 3));
  CHECK(flat.parts[0].movement.shrinksMm == Approx(400 * 0.00248 * 2));
  CHECK(flat.parts[0].species == "black cherry");
  CHECK(flat.woodsWithoutFigures == std::vector<std::string>{"unobtanium"});
  // A top of 650 mm through 5 points: 4.1 mm quarter sawn, 8.1 mm flat (eq. 13-2 by hand).
  rack.boards[0].sawn = Sawn::quarter;
  rack.parts[0].widthMm = 650;
  CHECK(movingParts(rack, Seasons{}).parts[0].movement.swingMm() == Approx(4.1).margin(0.05));
  rack.boards[0].sawn = Sawn::unknown;
  CHECK(movingParts(rack, Seasons{}).parts[0].movement.swingMm() == Approx(8.1).margin(0.05));
}

TEST_CASE("seasons come from the home's air, with a warning beyond the published range") {
  Shop shop;
  CHECK_FALSE(seasonsOf(shop)->fromAir);
  CHECK(seasonWarnings(*seasonsOf(shop)).empty());
  shop.homeDryAir = Air{(70 - 32) / 1.8, 30};
  shop.homeHumidAir = Air{(70 - 32) / 1.8, 65};
  const Seasons seasons = *seasonsOf(shop);
  CHECK(seasons.fromAir);
  // Wood Handbook Table 4-2 at 70 °F: 6.2 and 12.0.
  CHECK(std::abs(seasons.dryPercent - 6.2) <= 0.07);
  CHECK(std::abs(seasons.humidPercent - 12.0) <= 0.07);
  shop.homeHumidAir = Air{21, 90};
  CHECK(seasonWarnings(*seasonsOf(shop)).size() == 1);
  shop.homeHumidAir = Air{21, 120};
  CHECK_FALSE(seasonsOf(shop).ok());
}

TEST_CASE("a meter's reading is corrected for cold wood and for the wood") {
  CHECK(*correctedMoisturePercent(12, 20, 0) == Approx(12));
  CHECK(*correctedMoisturePercent(12, 20, -0.5) == Approx(11.5));
  // Colder wood reads low, so that the truth is higher; about a point for each 10 °C at 14 % (from
  // memory of FPL-GTR-6's chart: half a point for every 5 °C is the usual rule of thumb).
  for (double t = -10; t < 50; t += 5)
    CHECK(*correctedMoisturePercent(14, t, 0) > *correctedMoisturePercent(14, t + 5, 0));
  CHECK(*correctedMoisturePercent(14, 10, 0) - 14 == Approx(1).margin(0.35));
  CHECK(14 - *correctedMoisturePercent(14, 30, 0) == Approx(1).margin(0.35));
  CHECK_FALSE(correctedMoisturePercent(120, 20, 0).ok());
  CHECK_FALSE(correctedMoisturePercent(12, 90, 0).ok());
  CHECK_FALSE(correctedMoisturePercent(12, NAN, 0).ok());
}

TEST_CASE("density follows the published example") {
  // oak.snr.missouri.edu, density: G 0.4 at 12 % → 27.968 lb/ft³.
  const double lbPerFt3 = 0.45359237 / 0.028316846592;
  CHECK(densityKgPerM3(0.4, 12) / lbPerFt3 == Approx(27.968).margin(0.002));
  // Worked out from the same: walnut 38.5 lb/ft³, 3.20 lb a board foot.
  const double walnut =
      densityKgPerM3(speciesNamed("walnut")->specificGravity12->value, 12) / lbPerFt3;
  CHECK(walnut == Approx(38.5).margin(0.05));
  CHECK(walnut / 12 == Approx(3.20).margin(0.01));
}
