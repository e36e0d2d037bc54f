// SPDX-License-Identifier: GPL-3.0-or-later
// How far a mark reaches: the wood of a face that a part may not touch.
//
// Each mark bars its shape grown by the shop's clearance for its kind. A check, split or shake runs
// on unseen along the grain, so its clearance is laid past its tips (along the drawn line, or along
// the board for a shape without a direction) and only kAcrossGrainMm beside it. Marks that go
// through, or that spoil the body of the wood (split, shake, honeycomb, metal, live worms, a region
// to avoid), count on both faces; one known from the other face only is grown by the ± of the
// registration between the faces. All of this is common practice, no source.
#pragma once

#include "core/geometry/polygon.h"
#include "core/job/part.h"
#include "core/job/shop.h"
#include "core/wood/board.h"

namespace rackside {

inline constexpr double kAcrossGrainMm = 3;

// Proposals count only once taken; a region to favour bars nothing.
bool counts(const Mark& mark);

// Whether a face with these permissions may hold the mark: a sound knot, an old filled hole or bark
// pocket, a shallow check of known depth filled, stain, sapwood. Never metal, live worms or
// `avoid`.
bool mayHold(const FaceAllows& allows, const Mark& mark);

// Whether the mark shows on `face` of this board or reaches it from the other.
bool reaches(const Board& board, const Mark& mark, Face face);

// Whether a part whose face has these permissions must keep clear of the mark on `face`; one of
// known depth vanishes once `takeOffMm` is planed away. Where it lies is another question:
// reachOf().
bool bars(const Board& board, const Mark& mark, Face face, const FaceAllows& allows,
          double takeOffMm = 0);

// What one mark bars on `face`, clearance included, in board mm; empty when it does not reach it.
Polygons reachOf(const Board& board, const Mark& mark, Face face, const Shop& shop);

// Everything that a part with these permissions may not touch on `face`; the outline is not part of
// it. A mark of known depth on `face` vanishes once `takeOffMm` is planed away.
Polygons forbidden(const Board& board, Face face, const FaceAllows& allows, const Shop& shop,
                   double takeOffMm = 0);

// What no cut may cross: metal on either face, with its clearance.
Polygons barredToCuts(const Board& board, const Shop& shop);

}  // namespace rackside
