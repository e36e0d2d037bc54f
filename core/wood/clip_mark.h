// SPDX-License-Identifier: GPL-3.0-or-later
// Marks cut to a piece of the board they are on. Millimetres.
#pragma once

#include <vector>

#include "core/wood/mark.h"

namespace rackside {

// What of a mark lies on the piece, each part under a new id, moved so that `corner` of the board
// becomes the origin. A shape that the piece cuts in two gives two marks; an ellipse that lies
// within stays one. Where a mark shows on both faces they stay one mark as long as neither falls
// apart.
std::vector<Mark> markCutTo(const Mark& mark, const Polygon& piece, Point corner);

}  // namespace rackside
