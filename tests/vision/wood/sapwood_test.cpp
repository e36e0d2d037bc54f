// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/sapwood.h"

#include <catch2/catch.hpp>

#include "tests/support/figure_score.h"
#include "tests/support/noise.h"
#include "tests/support/wood_rack.h"

using namespace rackside;
using namespace rackside::synthetic;

TEST_CASE("the line of the sapwood is found in four species; faint ones are called unsure") {
  for (const char* species : {"walnut", "maple"}) {
    const SapwoodScore s = sapwoodScore(species, 5);
    REQUIRE(s.errorsMm.size() > 40);
    CHECK(quantile(s.errorsMm, 0.5) < 3);
    CHECK(quantile(s.errorsMm, 0.95) < 10);
    CHECK(s.falseBoards == 0);
    CHECK(s.saysUnsure == sapwoodIsFaint(species));
  }
}

TEST_CASE("sapwood becomes a mark to be confirmed, from the line to the outline") {
  WoodSpec s;
  s.species = "cherry";
  s.seed = 8;
  s.pithYMm = -30;
  s.pithZMm = -80;
  s.pithWanderMm = 0;
  s.sapRadiusMm = std::hypot(120 + 30, 27 + 80);
  FigureMaps figure;
  const Board b = paintedBoard("board-sap", s, 600, 160, 0.1, randomWear(2), figure);
  const auto marks = sapwoodMarks(b, Face::A, figure);
  REQUIRE(marks.size() == 1);
  CHECK(marks[0].kind == MarkKind::sapwood);
  CHECK(marks[0].author == MarkAuthor::proposal);
  CHECK_FALSE(marks[0].confirmed);
  CHECK(validate(marks[0]).ok());
  const double mm2 = area(polygonsOf(*marks[0].onA));
  CHECK(mm2 == Approx(600 * 40).epsilon(0.12));  // the rings waver about the line
  CHECK(describeSapwood(figure, "cherry").find("far edge") != std::string::npos);
}

TEST_CASE("a grey face shows no sapwood and says so") {
  WoodSpec s;
  s.species = "walnut";
  s.pithYMm = -30;
  s.sapRadiusMm = 150;
  FigureMaps figure;
  const Board b = paintedBoard("board-grey", s, 500, 150, 1, randomWear(1), figure);
  CHECK(sapwoodMarks(b, Face::A, figure).empty());
  CHECK(describeSapwood(figure, "walnut").find("grey") != std::string::npos);
}
