// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/local_take_off.h"

#include <algorithm>

namespace rackside {
namespace {

Point blankFromBoard(const Blank& blank, Point at) {
  const Point off = at - blank.boardFromBlank.origin;
  return apply(Pose{{0, 0}, -blank.boardFromBlank.angleRad}, off);
}

// Height of a hollow arc over the middle between its hills and its bottom; share from -1 to 1.
double arcHeight(double sagittaMm, double share) {
  return sagittaMm * (share * share - 0.5);
}

double shareOf(double at, double size) {
  return size > 0 ? std::clamp(2 * at / size - 1, -1.0, 1.0) : 0;
}

}  // namespace

double localTakeOffMm(const Board& board, const Blank& blank, Face face, Point at) {
  const Point p = blankFromBoard(blank, at);
  const Rect box = bounds(board.outline.polygon());
  const double alongShare = box.width() > 0 ? blank.roughLengthMm / box.width() : 1;
  const double acrossShare = box.height() > 0 ? blank.roughWidthMm / box.height() : 1;
  const bool cupKnown = board.barkSide.has_value() && board.sawn == Sawn::flat;
  const double cupSign = cupKnown && *board.barkSide != face ? -1 : 1;
  const double takeOff = face == Face::A ? blank.takeOffAMm : blank.takeOffBMm;
  const double cup = cupSign * arcHeight(board.cupMm * acrossShare * acrossShare,
                                         shareOf(p.y, blank.roughWidthMm));
  const double bow =
      arcHeight(board.bowMm * alongShare * alongShare, shareOf(p.x, blank.roughLengthMm));
  return std::max(0.0, takeOff + cup + bow);
}

}  // namespace rackside
