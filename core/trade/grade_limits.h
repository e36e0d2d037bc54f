// SPDX-License-Identifier: GPL-3.0-or-later
// What a grade says of a face besides its cuttings: pith, wane, splits, knots, the first foot.
#pragma once

#include <string>

#include "core/trade/grade_map.h"
#include "core/trade/grade_rules.h"
#include "core/wood/board.h"

namespace rackside {

// Why the face misses the grade; empty when it does not.
std::string limitMissed(Grade grade, const Board& board, Face face, const GradeMap& clear,
                        const GradeMap& sound, int surfaceMeasureFt2);

// Wane on the No. 1 Common face of a FAS One Face board: at most a third of the width and half the
// length (NHLA 2019 ¶64).
bool waneFitsOneFace(const Board& board, Face face);

}  // namespace rackside
