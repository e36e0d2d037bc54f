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

TEST_CASE("the ± of a taped board holds what the tape may err") {
  // UK SI 2016/1153, Schedule 1I, Annex X, class II with its end hook: 2.4 m counts as 3 m.
  CHECK(classTwoTapeLimitMm(2400) == Approx(1.1));
  CHECK(classTwoTapeLimitMm(1000) == Approx(0.7));
  CHECK(classTwoTapeLimitMm(5000) == Approx(1.5));
  TapedBoard taped;
  taped.name = "1";
  for (const double feet : {6.0, 8.0, 12.0, 16.0}) {
    taped.lengthMm = feet * 304.8;
    taped.widthsMm = {200};
    const Board board = *boardByTape(taped);
    CHECK(board.lengthMm.u95 > classTwoTapeLimitMm(taped.lengthMm));
    // NIST Handbook 44, section 5.52, metal tapes: 1/32 in to 6 ft, 1/16 in from 7 to 30 ft.
    CHECK(board.lengthMm.u95 > (feet <= 6 ? 25.4 / 32 : 25.4 / 16));
    // Nor is a tape made out to be worse than three times its class.
    CHECK(board.lengthMm.u95 < 3 * classTwoTapeLimitMm(taped.lengthMm));
  }
}
