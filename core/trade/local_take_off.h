// SPDX-License-Identifier: GPL-3.0-or-later
// How much milling takes from a face at one spot.
#pragma once

#include "core/job/part.h"
#include "core/plan/plan.h"
#include "core/wood/board.h"

namespace rackside {

// A blank is milled to a plane halfway between its hills and hollows, takeOffAMm and takeOffBMm
// deep on average. Where the face is hollow less goes, where it stands up more: by cup, which goes
// with the width squared, and bow, with the length squared (sagitta of one radius). The bark side
// of a flat-sawn board is the hollow one; where a side is not known the face asked for is taken as
// hollow, so that the least is said to go (common practice, no source). Never less than 0.
double localTakeOffMm(const Board& board, const Blank& blank, Face face, Point at);

}  // namespace rackside
