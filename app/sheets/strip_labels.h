// SPDX-License-Identifier: GPL-3.0-or-later
// What stands above and below a stretch of board, before it is drawn: the running dimensions of the
// crosscuts, and the words of the marks, each placed in a lane of its side.
#pragma once

#include <vector>

#include "app/sheets/board_strip.h"
#include "app/sheets/board_work.h"
#include "app/sheets/lanes.h"

namespace rackside::sheets {

inline constexpr int kMostLanes = 3;
inline constexpr double kAboveLaneMm = 5.6;
inline constexpr double kBelowLaneMm = 4.0;
inline constexpr double kRingMm = 4.6;  // of the numbers that cuts carry
inline constexpr double kMarkWordMm = 3.0;

struct StripLabel {
  LaneLabel place;
  QString text;
  QPointF tip;       // what it speaks of, on paper
  int cutOrder = 0;  // of a dimension
};

struct StripLabels {
  std::vector<StripLabel> above, below;
  int lanesAbove = 1, lanesBelow = 1;  // in use
};

// Labels keep within left and right of the paper. One that finds no room in kMostLanes lanes keeps
// lane -1 and is not drawn: cuts stand in the list as well, and patterns in the legend.
StripLabels labelsFor(const Strip& strip, const Board& board, const BoardWork& work, Face face,
                      const LengthStyle& lengths, double left, double right);

}  // namespace rackside::sheets
