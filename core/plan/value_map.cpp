// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/value_map.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

// Length of [lo, hi] ∩ [a, b].
double shared(double lo, double hi, double a, double b) {
  return std::max(0.0, std::min(hi, b) - std::max(lo, a));
}

int cellOf(double at, double from, double cellMm, int count) {
  return std::clamp(static_cast<int>(std::floor((at - from) / cellMm)), 0, count - 1);
}

}  // namespace

double ValueMap::mean(const Rect& r) const {
  const double whole = r.width() * r.height();
  if (columns <= 0 || rows <= 0 || !(whole > 0)) return 0;
  double sum = 0;
  const int lastColumn = cellOf(r.x1, area.x0, cellMm, columns);
  const int lastRow = cellOf(r.y1, area.y0, cellMm, rows);
  for (int row = cellOf(r.y0, area.y0, cellMm, rows); row <= lastRow; ++row) {
    const double y = area.y0 + row * cellMm;
    const double high = shared(r.y0, r.y1, y, y + cellMm);
    for (int column = cellOf(r.x0, area.x0, cellMm, columns); column <= lastColumn; ++column) {
      const double x = area.x0 + column * cellMm;
      sum += worth[static_cast<size_t>(row) * columns + column] * high *
             shared(r.x0, r.x1, x, x + cellMm);
    }
  }
  return sum / whole;
}

}  // namespace rackside
