// SPDX-License-Identifier: GPL-3.0-or-later
// A board entered by tape, without photographs.
#pragma once

#include <optional>
#include <string>

#include "core/wood/board.h"

namespace rackside {

struct TapedBoard {
  std::optional<int> tag;
  std::string name, species, place;
  double lengthMm = 0;
  double leftWidthMm = 0, rightWidthMm = 0;
  double thicknessMm = 0;
  double pricePerBoardFoot = 0;
};

// A straight board with its outline "drawn", every edge as sure as a tape is.
Board boardByTape(const TapedBoard& taped);

}  // namespace rackside
