// SPDX-License-Identifier: GPL-3.0-or-later
// Wood that cutting into a board uses. mm², board frame.
#pragma once

#include "core/geometry/polygon.h"
#include "core/job/shop.h"
#include "core/plan/plan.h"

namespace rackside {

// The board's wood up to x; all of it when what is left beyond is too short to be useful.
double stockUpToMm2(const Polygon& outline, double x, const Shop& shop);

// Of a board that a plan cuts into: all of it, and the useful offcut at its far end; 0 for others.
struct BoardStock {
  double boardMm2 = 0, offcutMm2 = 0;
};
BoardStock boardStock(const Board& board, const Plan& plan, const Shop& shop);

// What a plan uses of a board, 0 where nothing is cut: up to the useful offcut at its far end. Once
// the saw has been in it, all but the pieces of useful size that hold nothing.
double stockUsedMm2(const Board& board, const Plan& plan, const Shop& shop);

// Long and wide enough to go back on the rack.
bool worthKeeping(const Polygon& piece, const Shop& shop);

}  // namespace rackside
