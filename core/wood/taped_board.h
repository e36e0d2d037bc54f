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
  bool airDried = false;
};

// How far an edge may be off from the tape's reading at one place and between two (1 sigma; common
// practice, no source).
inline constexpr double kTapedEdgeSigmaMm = 1;
// What a class II tape itself may err over a length that begins at its end hook: 0.3 + 0.2 mm a
// metre begun, and 0.2 mm for the end (UK SI 2016/1153, Schedule 1I, Annex X).
double classTwoTapeLimitMm(double lengthMm);

// A board with a straight near edge, its far one through the widths; its ± holds the reading's and
// the tape's own error. Fails on figures that no board has.
Result<Board> boardByTape(const TapedBoard& taped);

}  // namespace rackside
