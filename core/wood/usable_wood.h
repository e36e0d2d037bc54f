// SPDX-License-Identifier: GPL-3.0-or-later
// The wood of a board that is sure to be there, and which faces anybody has looked at. Millimetres,
// board frame. What marks bar is in core/wood/clear_area.h.
#pragma once

#include "core/geometry/polygon.h"
#include "core/job/shop.h"
#include "core/wood/board.h"

namespace rackside {

// How far inside a measured edge the wood is sure (95 %): 1.96 σ, and on stretches that were not
// seen well at least 3 mm and twice the stated figure (common practice, no source).
double edgeMarginMm(const OutlineVertex& from, const OutlineVertex& to);

// The outline less the margin of each stretch.
Polygons usableWood(const Outline& outline);

// What is lost at each end before anything is measured from it: the shop's trim of a rough end; a
// sawn end only needs one more cut to be square.
struct EndTrims {
  double leftMm = 0, rightMm = 0;
};
EndTrims endTrims(const Board& board, const Shop& shop);

// Was this face looked at? One with a picture or a mark was; a board without any picture was drawn
// by hand from face A.
bool lookedAt(const Board& board, Face face);

}  // namespace rackside
