// SPDX-License-Identifier: GPL-3.0-or-later
// The planner of a careful maker with chalk: board by board, the longest part that fits sets the
// next crosscut, and the section is ripped from its near edge with whatever pays best for its
// width. No search, no second thoughts: the yardstick for the planner that has both.
#pragma once

#include <vector>

#include "core/plan/layout.h"

namespace rackside {

// Layouts in the order of `maps`; `wanted` holds the copies of each part still to place and is
// reduced by what was placed.
std::vector<BoardLayout> plainLayouts(const std::vector<const BoardMap*>& maps, const Job& job,
                                      std::vector<int>& wanted);

}  // namespace rackside
