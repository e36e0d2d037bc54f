// SPDX-License-Identifier: GPL-3.0-or-later
// What flattening takes from a blank, for the planner. (The checker reckons it for itself.)
#pragma once

#include "core/job/shop.h"
#include "core/wood/board.h"

namespace rackside {

// The board's shape as the planner sees it: its deviations and the size they were measured over.
struct Warp {
  double bowMm = 0, cupMm = 0, twistMm = 0;
  double lengthMm = 1, widthMm = 1;
};
Warp warpOf(const Board& board);

// Hills over hollows of a piece length × width cut from the board: bow goes with length² (a sagitta
// of one radius), cup with width², twist with length · width; twist is shared between the corners,
// so that half of one corner's deviation has to go. (Plain geometry.)
double flatteningMm(const Warp& warp, double lengthMm, double widthMm);

// Does the board's thickness, once it has dried to the shop's moisture, leave `finishedThicknessMm`
// after flattening and the least pass over each face?
bool thickEnough(const Board& board, const Warp& warp, const Shop& shop, double lengthMm,
                 double widthMm, double finishedThicknessMm);

// Least that is taken anywhere on each face when a blank is dried and milled evenly from both.
double leastTakeOffMm(const Board& board, const Warp& warp, const Shop& shop, double lengthMm,
                      double widthMm, double finishedThicknessMm);

}  // namespace rackside
