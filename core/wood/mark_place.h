// SPDX-License-Identifier: GPL-3.0-or-later
// Is a mark on the board it is meant for? One that lies wholly beside it was typed wrong.
#pragma once

#include "core/wood/board.h"

namespace rackside {

// Fails, in words with the board's size, when no part of the mark comes near the board. A board
// without an outline takes any.
Status liesOn(const Board& board, const Mark& mark);

}  // namespace rackside
