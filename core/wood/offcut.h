// SPDX-License-Identifier: GPL-3.0-or-later
// What saws leave of a board, as a board: for planning on while it lies on the bench, and for the
// rack once the cutting is done. Millimetres.
#pragma once

#include "core/geometry/polygon.h"
#include "core/wood/board.h"

namespace rackside {

// How well the border that a saw leaves is known, one standard deviation (common practice, no
// source: a cut is set out to half a millimetre).
inline constexpr double kSawnSigmaMm = 0.25;

// The outline of a piece sawn from a board: what it has of the old edges keeps their ±, the sawn
// borders have kSawnSigmaMm. `piece` in the frame of `parent`, which is kept.
Outline outlineOfPiece(const Outline& parent, const Polygon& piece);

// The piece as a board in its parent's frame and with all of its parent's marks; its bow, cup and
// twist are its share of the parent's (bow goes with length², cup with width², twist with length ·
// width). Keeps the parent's id.
Board pieceOfBoard(const Board& parent, const Polygon& piece);

// The piece as a board of its own, with a frame of its own (the parent's axes from the corner of
// its box), a new id, marks cut to the piece under new ids, and the parent's pictures, which stay
// in the parent's folder.
Board offcutBoard(const Board& parent, const Polygon& piece, const std::string& name);

}  // namespace rackside
