// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/look_maps.h"

#include <catch2/catch.hpp>

#include "tests/support/noise.h"
#include "tests/support/wood_rack.h"

using namespace rackside;
using namespace rackside::synthetic;

TEST_CASE("looks become worth: most about the arch, only for looks wanted, no colour on grey") {
  WoodSpec s;
  s.species = "cherry";
  s.seed = 32;
  s.pithYMm = 85;
  s.pithZMm = -60;
  FigureMaps figure;
  const Board b = paintedBoard("board-look", s, 900, 170, 0.9, randomWear(2), figure);
  Part arch, even, plain;
  arch.look = Look::archCentred;
  even.look = Look::evenColour;
  RunControl control;
  const auto source = [&](const Board&, Face) { return Result<FigureMaps>(figure); };
  CHECK(lookMaps({b}, {plain}, source, control).worth.empty());
  const LookMaps maps = lookMaps({b}, {plain, arch, even}, source, control);
  REQUIRE(maps.worth.size() == 1);  // the grey face has no worth by colour
  const auto& [key, map] = *maps.worth.begin();
  CHECK(std::get<2>(key) == Look::archCentred);
  CHECK(map.area == figure.area);
  const double middle = s.pithYMm + s.pithWanderMm * noise1(s.seed + 50, 600 / 900.0);
  CHECK(map.mean({500, middle - 20, 700, middle + 20}) > 2 * map.mean({500, 0, 700, 20}));
  for (const float w : map.worth) CHECK((w >= 0 && w <= 1));
}
