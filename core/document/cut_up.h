// SPDX-License-Identifier: GPL-3.0-or-later
// The end of a board's cutting: its useful offcuts go back to the rack as boards of their own.
#pragma once

#include <memory>

#include "core/document/edit.h"

namespace rackside {

// The outlines (board frame) of what the made cuts left and no piece is in, large enough to keep.
Polygons offcutsOf(const Board& board, const Plan& plan, const Shop& shop);

// The boards that these offcuts become: named after their parent, with numbers that no board of the
// rack has.
std::vector<Board> offcutBoards(const Rack& rack, const Board& board);

// Marks the board as cut up and adds its offcuts to the rack. Fails while a cut of its is not made,
// or when it was done before.
Result<std::unique_ptr<Edit>> finishCutting(const Rack& rack, const BoardId& board);

}  // namespace rackside
