// SPDX-License-Identifier: GPL-3.0-or-later
// Lines drawn along the board, from the pieces that the wood left of them.
#pragma once

#include "vision/wood/crayon/crayon.h"
#include "vision/wood/crayon/scrawls.h"

namespace rackside {

// A scrawl that may be a line or a piece of one: slim, and along the board (x).
std::optional<Stroke> linePieceOf(const Scrawl& scrawl);

// Long and slim enough to be a line by itself. Widths and lengths in pixels of the picture.
bool isALine(const Stroke& piece, double mmPerPx);

// Pieces that run on into one another are one line; what stays too short for a line is left out.
// Shapes in pixels of the picture.
std::vector<CrayonStroke> linesOf(std::vector<Stroke> pieces, double mmPerPx);

}  // namespace rackside
