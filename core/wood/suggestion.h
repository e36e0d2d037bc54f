// SPDX-License-Identifier: GPL-3.0-or-later
// Suggestions: marks that nobody has taken yet (Mark::confirmed is false). They lie among the marks
// of their board, where they can be looked at and reshaped, and count for nothing: not for a plan,
// a grade or a sheet. What was refused is kept apart on the board, so that it does not come back.
#pragma once

#include <vector>

#include "core/wood/board.h"

namespace rackside {

// Whether two marks speak of one thing in the wood: the same sort of mark (a round thing, a line
// along the fibres, an area) that covers much of the same place on a face.
bool sameThing(const Mark& a, const Mark& b);

// Of what was found on the board, what is news: not yet marked by the maker, nor refused.
std::vector<Mark> onlyNews(const Board& board, std::vector<Mark> found);

}  // namespace rackside
