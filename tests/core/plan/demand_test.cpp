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
