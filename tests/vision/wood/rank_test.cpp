// SPDX-License-Identifier: GPL-3.0-or-later
// Ranking on rendered racks one board of which fulfils the wish by construction.
#include "vision/wood/rank/rank.h"

#include <catch2/catch.hpp>

#include "core/wood/clear_area.h"
#include "core/wood/usable_wood.h"
#include "tests/support/noise.h"
#include "tests/support/wood_rack.h"
#include "vision/wood/rank/best_place.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

Result<Ranking> ranked(const WoodRack& rack, const Wish& wish) {
  RunControl control;
  return rankBoards(
      rack.boards, rack.part, Shop{}, wish,
      [&](const Board& b, Face) { return Result<FigureMaps>(rack.figures.at(b.id.text)); },
      control);
}

bool saysGrey(const std::vector<std::string>& reasons) {
  return std::any_of(reasons.begin(), reasons.end(), [](const std::string& r) {
    return r.find("not judged on colour") != std::string::npos;
  });
}

}  // namespace

TEST_CASE("the board with its arch in the clear comes first, the part centred on the arch") {
  const WoodRack rack = woodRack("arch-centred", 11, 4);
  const auto ranking = ranked(rack, *wishFromName("arch-centred"));
  REQUIRE(ranking.ok());
  REQUIRE_FALSE(ranking->places.empty());
  const Placement& first = ranking->places[0];
  CHECK(first.board.text == rack.best);
  const Rect box = bounds(first.outline);
  CHECK((box.y0 + box.y1) / 2 == Approx(*rack.middleY).margin(10));
  CHECK_FALSE(first.reasons.empty());
  for (size_t i = 1; i < ranking->places.size(); ++i)
    CHECK(ranking->places[i - 1].score >= ranking->places[i].score);
}

TEST_CASE("a ranked place lies in sure wood and clear of what the part may not hold") {
  WoodRack rack = woodRack("straight", 5, 2);
  Mark knot;
  knot.id = {"mk-knot"};
  knot.kind = MarkKind::knot;
  knot.through = true;
  knot.onA = Ellipse{{450, 100}, 8, 8, 0};
  rack.part.show.soundKnots = false;
  rack.part.widthMm = 60;
  rack.boards[0].marks = {knot};
  const Shop shop;
  const auto ranking = ranked(rack, *wishFromName("straight"));
  REQUIRE(ranking.ok());
  for (const Placement& p : ranking->places) {
    const Board& b = *std::find_if(rack.boards.begin(), rack.boards.end(),
                                   [&](const Board& c) { return c.id == p.board; });
    CHECK(area(subtract({p.outline}, usableWood(b.outline))) == Approx(0).margin(0.5));
    CHECK(area(intersect({p.outline}, forbidden(b, p.face, rack.part.show, shop))) ==
          Approx(0).margin(0.5));
  }
}

TEST_CASE("a grey rough face is never ranked on colour, and says what to do") {
  WoodSpec s;
  s.species = "cherry";
  s.seed = 21;
  s.pithYMm = -30;
  WoodRack rack;
  rack.part.id = {"p"};
  rack.part.name = "panel";
  rack.part.lengthMm = 300;
  rack.part.widthMm = 100;
  rack.part.thicknessMm = 19;
  for (const double grey : {0.0, 1.0, 0.8}) {
    FigureMaps figure;
    const std::string id = "board-" + std::to_string(rack.boards.size());
    rack.boards.push_back(paintedBoard(id, s, 600, 150, grey, randomWear(3), figure));
    rack.figures.emplace(id, std::move(figure));
  }
  for (const char* wish : {"even-colour", "sapwood-edge"}) {
    const auto ranking = ranked(rack, *wishFromName(wish));
    REQUIRE(ranking.ok());
    REQUIRE(ranking->places.size() == 1);
    CHECK(ranking->places[0].board.text == "board-0");
    REQUIRE(ranking->notRanked.size() == 2);
    for (const NotRanked& n : ranking->notRanked) CHECK(saysGrey({n.why}));
    REQUIRE_FALSE(ranking->remarks.empty());
    CHECK(ranking->remarks[0].find("lane a window") != std::string::npos);
  }
  // By its grain a grey face is ranked, and says that its colour was left out.
  const auto straight = ranked(rack, *wishFromName("straight"));
  REQUIRE(straight.ok());
  CHECK(straight->places.size() == 3);
  for (const Placement& p : straight->places)
    CHECK(saysGrey(p.reasons) == (p.board.text != "board-0"));
  // Called planed, it still looks grey: what is seen goes before what was said.
  rack.boards[1].pictures[0].stage = FaceStage::planed;
  const auto again = ranked(rack, *wishFromName("even-colour"));
  REQUIRE(again.ok());
  CHECK(again->places.size() == 1);
}

TEST_CASE("boards that cannot serve are told apart, each with its reason") {
  WoodRack rack = woodRack("straight", 3, 3);
  rack.part.species = rack.boards[0].species;
  rack.boards[0].state = BoardState::setAside;
  rack.boards[1].species = "ash";
  rack.boards[2].species = rack.part.species;
  rack.boards[2].thicknessMm = 10;
  const auto ranking = ranked(rack, {});
  REQUIRE(ranking.ok());
  CHECK(ranking->places.empty());
  REQUIRE(ranking->notRanked.size() == 3);
  CHECK(ranking->notRanked[0].why.find("set aside") != std::string::npos);
  CHECK(ranking->notRanked[1].why.find("ash") != std::string::npos);
  CHECK(ranking->notRanked[2].why.find("thin") != std::string::npos);
}

TEST_CASE("every wish has a name that reads back") {
  for (const std::string& n : wishNames()) {
    const auto wish = wishFromName(n);
    REQUIRE(wish.has_value());
    CHECK(name(*wish) == n);
    CHECK_FALSE(words(*wish).empty());
  }
  CHECK_FALSE(wishFromName("shiny").has_value());
}
