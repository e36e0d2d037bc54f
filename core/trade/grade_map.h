// SPDX-License-Identifier: GPL-3.0-or-later
// A face as a grader sees it: in cells of one inch along the board by a quarter inch across. A cell
// counts as clear only when all of it is, so the map never flatters.
#pragma once

#include "core/geometry/polygon.h"
#include "core/trade/cuttings.h"
#include "core/wood/board.h"

namespace rackside {

inline constexpr double kCellAlongMm = 25.4;
inline constexpr double kCellAcrossMm = 25.4 / 4;
// A cutting unit is 1 in × 1 ft.
inline constexpr long long kCellsPerUnit = 48;  // 12 × 4

struct GradeMap {
  CuttingGrid wood;   // inside the outline
  CuttingGrid clear;  // and free of every mark that counts against a clear-face cutting
  Point origin;       // of cell (0, 0), board mm
  Polygon polygonOf(const GridRect& cells) const;
};

// `defects` are polygons in board mm.
GradeMap gradeMap(const Outline& outline, const std::vector<Polygon>& defects);

}  // namespace rackside
