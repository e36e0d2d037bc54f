// SPDX-License-Identifier: GPL-3.0-or-later
// Cut day: what the maker says of the cuts of a board. Each function gives the plan as it is
// afterwards, or says what is wrong and leaves the plan as it was. Millimetres, board frame.
#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/plan/plan.h"

namespace rackside {

bool hasMadeCuts(const Plan& plan);
bool hasMadeCuts(const Plan& plan, const BoardId& board);

// `numbers`: Cut::order on this board. A cut can be made once the cut that frees its piece of wood
// is made, by this call or before.
Result<Plan> withCutsMade(const Plan& plan, const Board& board, const std::vector<int>& numbers);

// Ticked by mistake. A cut after which another was made cannot be taken back before that one.
Result<Plan> withCutsTakenBack(const Plan& plan, const Board& board,
                               const std::vector<int>& numbers);

// Where the saw really went: the planned line moved by `byMm` (towards the right end for a cut
// across the board, away from the near edge for one along it), or another line.
struct Miscut {
  double byMm = 0;
  std::optional<Segment> line;
};
// Ticks the cut with its true line, drawn from border to border of the wood it divides.
Result<Plan> withMiscut(const Plan& plan, const Board& board, int number, const Miscut& miscut);

// All that a plan has on a board once every cut that was not made is taken out of it: the pieces
// that are free.
Plan onlyWhatIsCut(const Plan& plan);

}  // namespace rackside
