// SPDX-License-Identifier: GPL-3.0-or-later
// What is wanted, with panels: parts 0 = a rail, 1 and 2 = the strips of a panel in two and in
// three.
#include "core/plan/search/demand.h"

#include <catch2/catch.hpp>

using namespace rackside;

namespace {

Demand railsAndPanels(int panels) {
  return {{2, 2 * panels, 3 * panels}, {{{{1, 2, 30}, {2, 3, 20}}, panels}}, {}};
}

}  // namespace

TEST_CASE("strips that no whole panel takes are wasted", "[panel][demand]") {
  const Demand demand = railsAndPanels(2);
  CHECK(demand.waste({1, 2, 3}) == 0);
  CHECK(demand.waste({0, 1, 0}) == 30);
  CHECK(demand.waste({0, 3, 2}) == 30 + 2 * 20);
  // Three whole panels, two wanted.
  CHECK(demand.waste({0, 4, 3}) == 3 * 20);
}

TEST_CASE("a panel that was begun is gone on with in its way", "[panel][demand]") {
  Demand demand = railsAndPanels(1);
  CHECK(demand.fits({1, 1}));
  CHECK_FALSE(demand.fits({1, 2}));
  CHECK_FALSE(demand.fits({0, 0, 0}));
  demand.take({0, 1});
  CHECK(demand.left == std::vector<int>{1, 1, 0});
  CHECK(demand.waste({0, 0, 0}) == 30);
  CHECK(demand.waste({0, 1, 0}) == 0);
  CHECK(demand.lacks({1, 0, 0}));
  CHECK_FALSE(demand.lacks({1, 1, 0}));
}

TEST_CASE("prices of strips bound panels by their dearest way", "[panel][demand]") {
  // Two rails at 5; a panel in two strips of 8, or in three of 6.
  CHECK(railsAndPanels(1).ceiling({5, 8, 6}) == 2 * 5 + 3 * 6);
  CHECK(railsAndPanels(1).ceiling({5, 10, 6}) == 2 * 5 + 2 * 10);
}

namespace {

// The dearest of all numbers of panels that the limits allow, tried one by one.
double dearest(const Demand& demand, const std::vector<double>& prices) {
  const WantedPanel& panel = demand.panels[0];
  double most = -1e300;
  for (int a = panel.ways[0].least; a <= std::min(panel.ways[0].most, panel.copies); ++a)
    for (int b = panel.ways[1].least; b <= std::min(panel.ways[1].most, panel.copies); ++b)
      if (a + b >= panel.least && a + b <= panel.copies)
        most = std::max(
            most, a * panel.ways[0].strips * prices[1] + b * panel.ways[1].strips * prices[2]);
  return most;
}

}  // namespace

TEST_CASE("limits on panels bound them by the dearest that they allow", "[panel][demand]") {
  int limited = 0;
  for (int least = 0; least <= 3; ++least)
    for (int most = least; most <= 3; ++most)
      for (int leastA = 0; leastA <= most; ++leastA)
        for (int mostA = leastA; mostA <= most; ++mostA) {
          Demand demand = railsAndPanels(3);
          demand.limitPanel(0, least, most);
          demand.limitWay(0, 0, leastA, mostA);
          CHECK(demand.left[1] == 2 * mostA);
          CHECK(demand.left[2] == 3 * most);
          // Prices of strips below what one is worth, so that none is thrown away; below 0 as well.
          for (const double two : {-4., 0., 7., 12.})
            for (const double three : {-3., 0., 6., 11.}) {
              INFO(least << "-" << most << ", " << leastA << "-" << mostA << ", " << two << " "
                         << three);
              CHECK(demand.ceiling({5, two, three}) ==
                    Approx(2 * 5 + dearest(demand, {5, two, three})));
            }
          ++limited;
        }
  CHECK(limited > 30);
}

TEST_CASE("limits on copies of a part bound what it can pay", "[demand]") {
  Demand demand = railsAndPanels(0);
  demand.limitPart(0, 100, 0, 1);
  CHECK(demand.ceiling({5, 0, 0}) == 5);
  CHECK_FALSE(demand.isStrip(0));
  // At least one of two, whatever it costs.
  demand = railsAndPanels(0);
  demand.limitPart(0, 100, 1, 2);
  CHECK(demand.ceiling({5, 0, 0}) == 2 * 5);
  CHECK(demand.ceiling({-7, 0, 0}) == -7);
  CHECK(demand.waste({1, 0, 0}) == 0);
}
