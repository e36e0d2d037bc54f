// SPDX-License-Identifier: GPL-3.0-or-later
// One cut in words and figures: what to do, measured from where, and where the waste falls.
#pragma once

#include "app/sheets/board_work.h"
#include "core/plan/cut_tree.h"
#include "core/plan/stock.h"

namespace rackside::sheets {

// Section and freed pieces are left for the caller. Every figure runs from its reference to the
// border of the wood on that side, so the saw goes just past the line.
CutStep cutStep(const Cut& cut, const CutTree& tree, const Board& board, const BoardWork& work,
                const Shop& shop, const LengthStyle& style);

}  // namespace rackside::sheets
