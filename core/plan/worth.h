// SPDX-License-Identifier: GPL-3.0-or-later
// What a piece is worth where it lies.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

// The map that tells how a look shows on a face of a board; null where none is known or the part
// wants no look.
const ValueMap* lookMap(const ValueMaps& maps, const BoardId& board, Face face, Look look);

// Worth of one copy: its value · (1 + weight · mean of the map under it). The mean is taken over
// the axis-parallel box of its finished length and width about its centre.
double pieceWorth(const Part& part, const ValueMap* map, double lookWeight, const Rect& place);
// Of a copy where a plan has it.
double placedWorth(const PlanRequest& request, const PlanWeights& weights, const Part& part,
                   const Piece& piece);

}  // namespace rackside
