// SPDX-License-Identifier: GPL-3.0-or-later
// Cards that are not as large as they are taken for are told, each way of getting there.
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/measure_simulation.h"

using namespace rackside;
using namespace rackside::simulation;

namespace {

constexpr double kDegree = CV_PI / 180;

Setup threeCards() {
  Setup s;
  s.options.cardScaleSigma = 0.016;  // nobody checked the print
  s.targets = {{targetOfCard(1), {160, 120}, 2 * kDegree},
               {targetOfCard(2), {1500, 130}, 0},
               {targetOfCard(3), {2840, 125}, 178 * kDegree}};
  s.cameras = {{{1500, 125}, 0, 15 * kDegree, 1.0, 2 * kDegree}};
  return s;
}

// The board seen with one card (0: all of them) printed at `scale`; the adjustment takes them for
// full size.
std::unique_ptr<Adjustment> printedAt(const Setup& nominal, int number, double scale,
                                      unsigned seed) {
  Setup printed = nominal;
  for (PlacedTarget& t : printed.targets)
    if (number == 0 || t.target.number == number)
      for (Point& p : t.target.points) p = t.target.centre + scale * (p - t.target.centre);
  std::mt19937_64 random(seed);
  Draw d = draw(printed, random);
  for (Sight& sight : d.sights)
    for (SeenTarget& seen : sight.others)
      for (const PlacedTarget& t : nominal.targets)
        if (t.target.number == seen.target.number) seen.target = t.target;
  auto result = adjust(d.sights, nominal.options);
  REQUIRE(result.ok());
  return std::move(result).value();
}

bool told(const Adjustment& a, const std::string& words) {
  for (const std::string& line : a.warnings())
    if (line.find(words) != std::string::npos) return true;
  return false;
}

}  // namespace

// One photograph: a tilt of the camera hides a part of what an end card's size would tell, so that
// 2 % is always seen and 1 % mostly.
TEST_CASE("one card of three that was printed smaller is named", "[measure][size]") {
  int told1 = 0;
  for (const int number : {1, 2, 3})
    for (unsigned seed = 1; seed <= 5; ++seed) {
      INFO("card " << number << ", seed " << seed);
      const auto a = printedAt(threeCards(), number, 0.98, seed);
      CHECK(told(*a, "card " + std::to_string(number)));
      CHECK(told(*a, "differs from the others"));
      told1 += told(*printedAt(threeCards(), number, 0.99, seed), "differs from the others");
    }
  CHECK(told1 >= 12);  // of 15
}

TEST_CASE("cards of one size are not blamed", "[measure][size]") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    CHECK_FALSE(told(*printedAt(threeCards(), 0, 1, seed), "differs"));
    CHECK_FALSE(told(*printedAt(threeCards(), 0, 0.97, seed), "differs"));
  }
}

TEST_CASE("a tape and cards that contradict each other are told", "[measure][size]") {
  Setup s = threeCards();
  const double apart = norm(s.targets[2].at - s.targets[0].at);
  s.options.taped = {{1, 3, apart, 0.6}};
  CHECK_FALSE(told(*printedAt(s, 0, 1, 1), "tape"));
  CHECK(told(*printedAt(s, 0, 0.97, 1), "print at 97"));
  s.options.taped = {{1, 3, 1.04 * apart, 0.6}};
  CHECK(told(*printedAt(s, 0, 1, 1), "print at 104"));
}

// Cards that were checked with a rule, and a tape that was read a foot wrong: the tape goes.
TEST_CASE("a tape that cannot be right is left out and told", "[measure][size]") {
  Setup s = threeCards();
  const double apart = norm(s.targets[2].at - s.targets[0].at);
  s.options.cardScaleSigma = 0.0004;
  const auto without = printedAt(s, 0, 1, 1);
  for (const double wrong : {0.9, 1.04, 1.1}) {
    s.options.taped = {{1, 3, wrong * apart, 0.6}};
    const auto with = printedAt(s, 0, 1, 1);
    CHECK(told(*with, "print at " + std::to_string(int(std::lround(100 * wrong)))));
    CHECK(told(*with, "left out"));
    CHECK(norm(with->planeFromCard(3)->origin - with->planeFromCard(1)->origin) ==
          Approx(norm(without->planeFromCard(3)->origin - without->planeFromCard(1)->origin)));
  }
}
