// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/taped_board.h"

#include <catch2/catch.hpp>

#include "core/trade/tally.h"

using namespace rackside;

TEST_CASE("a board is entered by tape") {
  TapedBoard taped;
  taped.name = "12";
  taped.species = "Cherry";
  taped.lengthMm = 10 * 304.8;
  taped.widthsMm = {8 * 25.4, 5 * 25.4};
  taped.thicknessMm = 50.8;
  taped.thicknessSaid = "8/4";
  const auto board = boardByTape(taped);
  REQUIRE(board.ok());
  CHECK(board->lengthMm.value == Approx(3048));
  CHECK(board->widthsMm.size() == 30);
  CHECK(signedArea(board->outline.polygon()) == Approx(3048 * 6.5 * 25.4));
  CHECK(surfaceMeasure(tallyWidthMm(board->outline), 3048) == 5);
  CHECK(board->outline.vertices[0].state == EdgeState::drawn);
  taped.widthsMm = {200};
  CHECK(boardByTape(taped)->outline.vertices.size() == 4);
  for (const auto spoil : std::vector<void (*)(TapedBoard&)>{
           [](TapedBoard& t) { t.name.clear(); }, [](TapedBoard& t) { t.lengthMm = 0; },
           [](TapedBoard& t) { t.lengthMm = 1e9; }, [](TapedBoard& t) { t.widthsMm.clear(); },
           [](TapedBoard& t) {
             t.widthsMm = {200, -1};
           },
           [](TapedBoard& t) { t.thicknessMm = -2; },
           [](TapedBoard& t) { t.pricePerBoardFoot = NAN; }}) {
    TapedBoard bad = taped;
    spoil(bad);
    CHECK_FALSE(boardByTape(bad).ok());
  }
}
