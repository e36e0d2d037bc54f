// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/milling.h"

#include <algorithm>

#include "core/plan/drying.h"

namespace rackside {

Warp warpOf(const Board& board) {
  const Rect box = bounds(board.outline.polygon());
  return {board.bowMm, board.cupMm, board.twistMm, std::max(1.0, box.width()),
          std::max(1.0, box.height())};
}

double flatteningMm(const Warp& warp, double lengthMm, double widthMm) {
  const double alongShare = lengthMm / warp.lengthMm;
  const double acrossShare = widthMm / warp.widthMm;
  return warp.bowMm * alongShare * alongShare + warp.cupMm * acrossShare * acrossShare +
         warp.twistMm / 2 * alongShare * acrossShare;
}

bool thickEnough(const Board& board, const Warp& warp, const Shop& shop, double lengthMm,
                 double widthMm, double finishedThicknessMm) {
  return driedThicknessMm(board, shop) - flatteningMm(warp, lengthMm, widthMm) -
             2 * shop.minTakeOffMm >=
         finishedThicknessMm;
}

double leastTakeOffMm(const Board& board, const Warp& warp, const Shop& shop, double lengthMm,
                      double widthMm, double finishedThicknessMm) {
  return (driedThicknessMm(board, shop) - finishedThicknessMm -
          flatteningMm(warp, lengthMm, widthMm)) /
         2;
}

}  // namespace rackside
