// SPDX-License-Identifier: GPL-3.0-or-later
// What a piece of wood lacks for a part. Millimetres.
#pragma once

#include <string>

#include "core/plan/board_map.h"

namespace rackside {

// Nothing when the part would fit on the wood, were it empty.
struct Lack {
  const Board* board = nullptr;
  double byMm = 1e9;
  std::string direction, why;  // "length", "width", "thickness"
  bool fits = false;
};

// Of a single copy of job.parts[partIndex], on the wood of the map.
Lack lackOf(const Job& job, const BoardMap& map, int partIndex);

}  // namespace rackside
