// SPDX-License-Identifier: GPL-3.0-or-later
// The list that goes with a batch of photographs: what a photograph cannot tell of each board.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "core/base/length.h"
#include "core/base/result.h"

namespace rackside::command {

struct ListedBoard {
  std::string name, species, place;
  double thicknessMm = 0;
  std::string thicknessSaid;  // 0: not given
};

// CSV with a header row; columns tag (needed), name, species, thickness, place in any order.
// Errors name the line and the column. Keyed by tag.
Result<std::map<int, ListedBoard>> boardListFromCsv(std::string_view csv, UnitSystem bareUnit);

}  // namespace rackside::command
