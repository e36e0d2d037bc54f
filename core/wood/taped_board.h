// SPDX-License-Identifier: GPL-3.0-or-later
// A board entered by tape, without a photograph.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/wood/board.h"

namespace rackside {

struct TapedBoard {
  std::string name, species, place;
  double lengthMm = 0;
  std::vector<double>
      widthsMm;  // at even distances from the left end to the right one; one: all along
  double thicknessMm = 0;
  std::string thicknessSaid;
  double pricePerBoardFoot = 0;
};

// How far an edge may be off where a tape was read between one width and the next (1 sigma; common
// practice, no source). A class II tape itself errs by no more than 0.9 mm over 2.4 m (UK SI
// 2016/1153, Schedule 1I, Annex X).
inline constexpr double kTapedEdgeSigmaMm = 1;

// A board with a straight near edge, its far one through the widths. Fails on figures that no board
// has.
Result<Board> boardByTape(const TapedBoard& taped);

}  // namespace rackside
