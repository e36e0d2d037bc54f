// SPDX-License-Identifier: GPL-3.0-or-later
// Would a blank lie on a board, whatever else is planned there? Asked of the planner's own maps, by
// the planner's own rules.
#pragma once

#include <optional>

#include "core/plan/board_map.h"

namespace rackside {

struct Place {
  int direction = 0;
  int column = 0;
  double bottomMm = 0;  // y' in that direction
  Rect box;             // round its rough outline, board frame
};

// The first place along the board for job.kinds[kindIndex], or for `as` (the same kind with other
// sizes); nothing when the board has none. `step`: every so many columns are tried.
std::optional<Place> placeFor(const Job& job, const BoardMap& map, int kindIndex,
                              const BlankKind& as, int step = 1);
std::optional<Place> placeFor(const Job& job, const BoardMap& map, int kindIndex, int step = 1);

}  // namespace rackside
