// SPDX-License-Identifier: GPL-3.0-or-later
// The wood that a plan leaves over, as boards in their parents' frames. Millimetres.
#pragma once

#include <vector>

#include "core/plan/planner.h"

namespace rackside {

// Pieces smaller than this are of no use to whoever asks.
struct LeastSize {
  double lengthMm = 0, widthMm = 0;
};

struct LeftOver {
  Board board;  // bears its parent's id
  double areaMm2 = 0;
  bool whole = false;  // nothing is planned on that board
};

// Of boards that may be used; the least first, and boards that nothing is planned on last.
std::vector<LeftOver> leftOvers(const PlanRequest& request, const Plan& plan,
                                const LeastSize& least);

// Neither spoken for, cut up nor forbidden.
bool mayBeCut(const PlanRequest& request, const Board& board);

}  // namespace rackside
