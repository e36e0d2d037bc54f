// SPDX-License-Identifier: GPL-3.0-or-later
// What a board may hold, on reading and on writing (core/base/limits.h says what is too large).
#pragma once

#include "core/wood/board.h"

namespace rackside {

// What is wrong with a board, its marks among it, in words; success when nothing is. A board
// without an outline holds, though nothing can be planned on it.
Status validate(const Board& board);

}  // namespace rackside
