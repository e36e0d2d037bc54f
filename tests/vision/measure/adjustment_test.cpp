// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/adjustment.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/measure_simulation.h"

using namespace rackside;
using namespace rackside::simulation;

namespace {

constexpr double kDegree = CV_PI / 180;

PlacedTarget card(int number, double x, double y, double turnDegrees = 0) {
  return {targetOfCard(number), {x, y}, turnDegrees * kDegree};
}

Setup threeCards() {
  Setup s;
  s.targets = {card(1, 160, 120, 2), card(2, 1500, 130), card(3, 2840, 125, 178)};
  s.cameras = {{{1500, 125}, 0, 15 * kDegree, 1.0, 2 * kDegree}};
  return s;
}

std::unique_ptr<Adjustment> adjusted(const Setup& s, const Draw& d) {
  auto result = adjust(d.sights, s.options);
  INFO((result.ok() ? std::string() : result.error().message));
  REQUIRE(result.ok());
  return std::move(result).value();
}

std::string failure(const std::vector<Sight>& sights, const AdjustmentOptions& options) {
  const auto result = adjust(sights, options);
  REQUIRE_FALSE(result.ok());
  return result.error().message;
}

bool anyHolds(const std::vector<std::string>& lines, const std::string& text) {
  return std::any_of(lines.begin(), lines.end(),
                     [&](const std::string& l) { return l.find(text) != std::string::npos; });
}

// The priors tell the true lens, no noise: what is left is the solver's own error.
Setup noiseless(Setup s) {
  s.truth = {s.lens.focalPx, 0, 0, 0};
  s.sigmaPx = 1e-4;
  return s;
}

void checkExact(const Setup& s, double toleranceMm) {
  std::mt19937_64 random(5);
  const Draw d = draw(s, random);
  const auto a = adjusted(s, d);
  const Outcome o = measure(s, d, *a, 0, random);
  CHECK(std::abs(o.length.error) < toleranceMm);
  CHECK(std::abs(o.widthMiddle.error) < toleranceMm);
  CHECK(std::abs(o.widthEnd.error) < toleranceMm);
}

}  // namespace

TEST_CASE("Without noise the adjustment gives back the board", "[measure]") {
  // 0.02 mm: the corners' spread of 1e-4 px, magnified by the way from card to board end.
  SECTION("cards on the board") {
    checkExact(noiseless(threeCards()), 0.02);
  }
  SECTION("cards on the bench, board 40 mm thick") {
    Setup s = threeCards();
    s.options.cardsOn = CardsOn::bench;
    s.options.boardThicknessMm = 40;
    for (auto& t : s.targets) t.at.y = -90;
    checkExact(noiseless(s), 0.02);
  }
  SECTION("one card on the bench, two on the board, all on 3 mm stock") {
    Setup s = threeCards();
    s.options.boardThicknessMm = 27;
    s.options.cardThicknessMm = 3;
    s.targets[1].target.on = CardsOn::bench;
    s.targets[1].at.y = 330;
    checkExact(noiseless(s), 0.02);
  }
  SECTION("prints that came out 1 % large, said so") {
    Setup s = threeCards();
    s.options.cardScale = 1.01;
    checkExact(noiseless(s), 0.02);
  }
  SECTION("a bowed board, its bow given") {
    Setup s = threeCards();
    // Card 2 lies unturned in the middle and is seen first: its frame is the bow's.
    std::swap(s.targets[0], s.targets[1]);
    s.options.bow = Bow{{-1500, 0}, {1500, 0}, 12, 0};
    s.targets[0].at = {1500, 125};
    checkExact(noiseless(s), 0.05);
  }
  SECTION("cards upside down under a picture on its side") {
    Setup s = threeCards();
    for (auto& t : s.targets) t.turnRad += CV_PI;
    s.cameras = {{{1500, 125}, 4200, 30 * kDegree, -2.0, 90 * kDegree}};
    checkExact(noiseless(s), 0.02);
  }
}

TEST_CASE("Photographs that share no card directly are joined through others", "[measure]") {
  Setup s = threeCards();
  s.targets.push_back(card(4, 2150, 120));
  s.targets.push_back(card(5, 830, 120));
  for (const double x : {500.0, 2500.0, 1500.0})
    s.cameras.push_back({{x, 120}, 1400, 12 * kDegree, x / 300, x == 1500 ? 90 * kDegree : 0.0});
  s.cameras.erase(s.cameras.begin());
  // Rolled by 90° the middle photograph spans 3000 px: make it see cards 5, 2 and 4.
  s.cameras[2].distanceMm = 2000;
  s = noiseless(s);
  std::mt19937_64 random(2);
  Draw d = draw(s, random);
  const auto named = [&](size_t photo) {
    std::string names;
    for (const SeenTarget& t : d.sights[photo].others) names += t.target.name + " ";
    return names;
  };
  REQUIRE(named(0) == "card 1 card 5 ");
  REQUIRE(named(1) == "card 3 card 4 ");
  REQUIRE(named(2) == "card 2 card 4 card 5 ");
  const auto a = adjusted(s, d);
  const Outcome o = measure(s, d, *a, 0, random);
  CHECK(std::abs(o.length.error) < 0.05);

  d.sights.pop_back();
  const std::string message = failure(d.sights, s.options);
  CHECK_THAT(message, Catch::Contains("shares no card") && Catch::Contains("Photograph 2") &&
                          Catch::Contains("take one more photograph"));
}

TEST_CASE("The two projections are each other's inverse", "[measure]") {
  std::mt19937_64 random(11);
  Setup s = threeCards();
  s.lens.k1Sigma = s.truth.k1Sigma = 0.02;
  const Draw d = draw(s, random);
  const auto a = adjusted(s, d);
  for (int x = 50; x < 3990; x += 500)
    for (int y = 100; y < 2950; y += 400)
      for (const double z : {0.0, -30.0}) {
        const auto plane = a->planeFromImage(0, cv::Point2d(x, y), z);
        REQUIRE(plane);
        const cv::Point2d back = a->imageFromPlane(0, *plane, z);
        CHECK(std::abs(back.x - x) < 1e-6);
        CHECK(std::abs(back.y - y) < 1e-6);
      }
  CHECK(a->cameraCentre(0).z > 1000);
}

TEST_CASE("Modes foretell the same sigma as direct propagation", "[measure]") {
  // Direct: the spread of L and W over repeated draws of the noise, everything else the same.
  // 2,000 draws know a sigma to 1.6 %; the bar is 3 %, three times that is allowed for here.
  // The exact comparison is in plane_modes_test.
  Setup s = threeCards();
  s.lens = {3000, 0.002, 4, 0.001};
  s.truth = s.lens;
  std::mt19937_64 random(3);
  double length2 = 0, width2 = 0, lengthSaid = 0, widthSaid = 0;
  constexpr int sets = 400;
  for (int i = 0; i < sets; ++i) {
    const Draw d = draw(s, random);
    const Outcome o = measure(s, d, *adjusted(s, d), 0, random);
    length2 += o.length.error * o.length.error / sets;
    width2 += o.widthEnd.error * o.widthEnd.error / sets;
    lengthSaid += o.length.u95 / 1.96 / sets;
    widthSaid += o.widthEnd.u95 / 1.96 / sets;
  }
  // A sigma from 400 draws is known to 3.5 %: three of those.
  CHECK(std::sqrt(length2) == Approx(lengthSaid).epsilon(0.11));
  CHECK(std::sqrt(width2) == Approx(widthSaid).epsilon(0.11));
}

TEST_CASE("An unchecked print enters the total ± only, and a taped distance shrinks it",
          "[measure]") {
  Setup s = threeCards();
  std::mt19937_64 random(4);
  const Draw d = draw(s, random);
  const Outcome loose = measure(s, d, *adjusted(s, d), 0, random);
  // 0.1 % of 3 m, one standard deviation: 1.96 · 3 mm = 5.9 mm.
  CHECK(std::sqrt(std::pow(loose.length.u95Total, 2) - std::pow(loose.length.u95, 2)) ==
        Approx(5.88).epsilon(0.01));
  CHECK(loose.length.u95 < 1.5);
  s.options.taped = {{1, 3, norm(s.targets[2].at - s.targets[0].at), 0.4}};
  const Outcome taped = measure(s, d, *adjusted(s, d), 0, random);
  CHECK(taped.length.u95Total < 1.5);
  s.options.taped.clear();
  s.options.cardScaleSigma = 0;
  const Outcome exact = measure(s, d, *adjusted(s, d), 0, random);
  CHECK(exact.length.u95Total == Approx(exact.length.u95));
}

TEST_CASE("Wrong corners are set aside", "[measure]") {
  Setup s = threeCards();
  s.outlierShare = 0.1;
  std::mt19937_64 random(8);
  const Draw d = draw(s, random);
  const auto a = adjusted(s, d);
  int rejected = 0;
  for (const CardFit& c : a->cards()) rejected += c.rejected;
  CHECK(rejected >= 3);
  CHECK(rejected <= 12);
  CHECK(a->rmsPx() < 0.13);
  const Outcome o = measure(s, d, *a, 0, random);
  CHECK(std::abs(o.length.error) < 2);
}

TEST_CASE("A card that moved between photographs is named", "[measure]") {
  Setup s = threeCards();
  s.cameras = {{{1500, 125}, 3000, 0.2, 0, 0}, {{1500, 125}, 3100, 0.25, 2, 0.1}};
  std::mt19937_64 random(9);
  Draw d = draw(s, random);
  const double shift = 12;  // px, about 12 mm on the board
  for (FoundSaddle& p : d.sights[1].others[1].points) p.px.y += shift;
  const std::string message = failure(d.sights, s.options);
  CHECK_THAT(message, Catch::Contains("card 2") && Catch::Contains("moved between photographs"));
}

TEST_CASE("Input that cannot be measured fails with what to do", "[measure]") {
  std::mt19937_64 random(1);
  Setup s = threeCards();
  Draw d = draw(s, random);
  CHECK_THAT(failure({}, s.options), Catch::Contains("No photograph"));
  std::vector<Sight> bare = d.sights;
  bare[0].others.clear();
  CHECK_THAT(failure(bare, s.options),
             Catch::Contains("no reference card") && Catch::Contains("lay at least one card"));
  std::vector<Sight> half = d.sights;
  half[0].others.resize(1);
  half[0].others[0].points.resize(3);
  CHECK_THAT(failure(half, s.options), Catch::Contains("four corners"));
  AdjustmentOptions bench = s.options;
  bench.cardsOn = CardsOn::bench;
  CHECK_THAT(failure(d.sights, bench), Catch::Contains("thickness"));
  AdjustmentOptions taped = s.options;
  taped.taped = {{1, 9, 1000, 0.5}};
  CHECK_THAT(failure(d.sights, taped), Catch::Contains("card 9"));
  AdjustmentOptions scale = s.options;
  scale.cardScale = 25.4;
  CHECK_THAT(failure(d.sights, scale), Catch::Contains("scale"));
}

TEST_CASE("Advice foretells what a further card or a calibrated lens brings", "[measure]") {
  Setup s = threeCards();
  s.targets = {card(1, 160, 120), card(2, 900, 125)};
  std::mt19937_64 random(6);
  const Draw d = draw(s, random);
  const auto a = adjusted(s, d);
  const Lay lay = layOf(s, d, *a);
  const auto advice = a->advice(lay.region, lay.boardFromPlane);
  REQUIRE_FALSE(advice.empty());
  CHECK(anyHolds(advice, "right end: length ±"));
  CHECK_FALSE(anyHolds(advice, "left end"));
  CHECK(anyHolds(advice, "Work out the lens"));

  // Foretold against done: the same scene with the card really there.
  const auto line = std::find_if(advice.begin(), advice.end(), [](const std::string& l) {
    return l.find("right end") != std::string::npos;
  });
  const double foretold = std::stod(line->substr(line->find("→ ± ") + 6));
  s.targets.push_back(card(3, 2840, 125));
  std::mt19937_64 again(6);
  const Draw with = draw(s, again);
  const Outcome o = measure(s, with, *adjusted(s, with), 0, again);
  CHECK(foretold == Approx(o.length.u95).epsilon(0.25));
}

TEST_CASE("Advice says what an unseen bow would do to the length", "[measure]") {
  // Photographs of a board bowed 5 mm, measured as flat and as bowed: the difference is foretold.
  Setup s = noiseless(threeCards());
  std::swap(s.targets[0], s.targets[1]);
  s.targets[0].at = {1500, 125};
  // The lens exactly known: a free k1 would take up the bow, which looks the same along the board.
  s.lens = {3000, 0, 0, 0};
  s.toldSigmaPx = 0.3;
  s.options.bow = Bow{{-1500, 0}, {1500, 0}, 5, 0};
  std::mt19937_64 random(12);
  const Draw d = draw(s, random);
  Setup flat = s;
  flat.options.bow.reset();
  const auto a = adjusted(flat, d);
  const double error = measure(flat, d, *a, 0, random).length.error;
  REQUIRE(std::abs(error) > 2);
  const Lay lay = layOf(flat, d, *a);
  for (const std::string& line : a->advice(lay.region, lay.boardFromPlane)) {
    const auto at = line.find("the length would be ");
    if (at == std::string::npos) continue;
    CHECK(line.find(error > 0 ? "mm less" : "mm more") != std::string::npos);
    CHECK(std::stod(line.substr(at + 20)) == Approx(std::abs(error)).epsilon(0.1));
    return;
  }
  FAIL("no line on the bow");
}

TEST_CASE("One card only, and a very oblique view, are warned of", "[measure]") {
  Setup s = threeCards();
  s.targets.resize(1);
  s.cameras[0] = {{200, 125}, 1500, 60 * kDegree, -CV_PI / 2, 0};
  std::mt19937_64 random(7);
  const Draw d = draw(s, random);
  const auto a = adjusted(s, d);
  CHECK(anyHolds(a->warnings(), "Only one card"));
  CHECK(anyHolds(a->warnings(), "obliquely"));
}
