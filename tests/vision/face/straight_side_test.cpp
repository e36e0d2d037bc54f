// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/straight_side.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace rackside;

namespace {

// A sawn side of 2.4 m with 5 mm of crook and a rough cut, every 6 mm.
std::vector<Point> sawnSide(uint32_t seed) {
  std::mt19937 random(seed);
  std::normal_distribution<double> rough(0, 0.6);
  std::vector<Point> side;
  for (int i = 0; i < 400; ++i) {
    const double x = 6 * i, u = (x - 1200) / 1200;
    side.push_back({x, 100 + 4 * u - 5 * u * u + rough(random)});
  }
  return side;
}

}  // namespace

TEST_CASE("the curve of a sawn side is found past a bulge") {
  const uint32_t seed = GENERATE(range(1U, 9U));
  std::vector<Point> side = sawnSide(seed);
  for (size_t i = 130; i < 230; ++i) side[i].y += 14;  // a quarter of it ran on along a shadow
  const auto curve = straightSide(side);
  REQUIRE(curve);
  for (const Point& p : sawnSide(seed)) CHECK(std::abs(curve->at(p.x) - p.y) < 3.5);
}

// A quadratic could bend along the step and follow both parts a little.
TEST_CASE("a finely read side that steps aside keeps to the curve of its longer part") {
  std::vector<Point> side;
  for (int i = 0; i < 400; ++i) side.push_back({6.0 * i, 100 - 0.008 * i + (i > 285 ? 6.0 : 0.0)});
  const auto curve = straightSide(side, 1.2);
  REQUIRE(curve);
  for (int i = 0; i < 400; ++i)
    CHECK(curve->at(6.0 * i) == Approx(100 - 0.008 * i).margin(2));  // a third of the step
}

TEST_CASE("a live edge has no such curve") {
  std::vector<Point> side;
  for (int i = 0; i < 400; ++i) side.push_back({6.0 * i, 100 + 9 * std::sin(i / 17.0)});
  CHECK_FALSE(straightSide(side));
  side.resize(8);
  CHECK_FALSE(straightSide(side));
}
