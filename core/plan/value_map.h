// SPDX-License-Identifier: GPL-3.0-or-later
// What a face is worth, per mm², for a wish. The planner knows no pictures: vision fills these maps
// from the figure, tests from formulas.
#pragma once

#include <map>
#include <tuple>
#include <vector>

#include "core/base/id.h"
#include "core/geometry/shapes.h"
#include "core/job/part.h"
#include "core/wood/mark.h"

namespace rackside {

// A raster in the board frame: cell (column, row) covers x in [area.x0 + column·cellMm, …), y
// likewise from area.y0. Worth outside is 0. 0 is plain wood, 1 is the wish fulfilled, negative is
// against it.
struct ValueMap {
  Rect area;
  double cellMm = 10;
  int columns = 0;
  int rows = 0;
  std::vector<float> worth;  // row by row

  // Mean worth over an axis-parallel rectangle; 0 where nothing is known.
  double mean(const Rect& r) const;
};

// What a board's wood looks like as a whole, ln of light and of red over blue: so that strips of
// like boards are glued up together.
struct BoardTone {
  double lightness = 0, warmth = 0;
};
using BoardTones = std::map<BoardId, BoardTone>;

using ValueMaps = std::map<std::tuple<BoardId, Face, Look>, ValueMap>;

}  // namespace rackside
