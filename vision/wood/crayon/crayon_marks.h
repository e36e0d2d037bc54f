// SPDX-License-Identifier: GPL-3.0-or-later
// The marks that strokes of crayon stand for, on the board they were drawn on.
#pragma once

#include "vision/wood/crayon/crayon.h"
#include "vision/wood/propose/propose_board.h"

namespace rackside {

// Unconfirmed marks with ids: ring: avoid; cross: hole to fill; line: sapwood as far as the nearer
// edge; tick: favour.
std::vector<Mark> crayonMarks(const std::vector<CrayonStroke>& strokes, const BoardFace& face,
                              const Board& board, Face side);

}  // namespace rackside
