// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/taped_board.h"

#include <algorithm>

#include "core/wood/measure.h"

namespace rackside {

namespace {
// A tape read to the millimetre on a rough edge: half a millimetre to one, common practice, no
// source.
constexpr double kTapeSigmaMm = 1;
}  // namespace

Board boardByTape(const TapedBoard& taped) {
  Board board;
  board.id = {newIdText("board")};
  board.tag = taped.tag;
  board.name = taped.name;
  board.species = taped.species;
  board.place = taped.place;
  board.thicknessMm = taped.thicknessMm;
  board.pricePerBoardFoot = taped.pricePerBoardFoot;
  const double middle = std::max(taped.leftWidthMm, taped.rightWidthMm) / 2;
  for (const Point at : {Point{0, middle - taped.leftWidthMm / 2},
                         Point{taped.lengthMm, middle - taped.rightWidthMm / 2},
                         Point{taped.lengthMm, middle + taped.rightWidthMm / 2},
                         Point{0, middle + taped.leftWidthMm / 2}})
    board.outline.vertices.push_back({at, kTapeSigmaMm, EdgeState::drawn});
  board.lengthMm = lengthOf(board.outline);
  board.widthsMm = widthsEvery(board.outline, 100);
  return board;
}

}  // namespace rackside
