// SPDX-License-Identifier: GPL-3.0-or-later
// Which faces of a board somebody has looked over: a face without marks is clear only then. Kept
// among the board's other keys, as "looked_over": ["A", "B"].
#pragma once

#include <vector>

#include "core/wood/board.h"

namespace rackside {

bool lookedOver(const Board& board, Face face);
void setLookedOver(Board& board, Face face, bool over);
// The faces with a picture that nobody has looked over yet.
std::vector<Face> facesToLookOver(const Board& board);

}  // namespace rackside
