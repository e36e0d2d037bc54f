// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/grade_map.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

struct Raster {
  Point origin;
  CuttingGrid& grid;

  Rect cell(int column, int row) const {
    const double x = origin.x + column * kCellAlongMm, y = origin.y + row * kCellAcrossMm;
    return {x, y, x + kCellAlongMm, y + kCellAcrossMm};
  }
  void block(int column, int row) {
    grid.clear[static_cast<size_t>(row) * static_cast<size_t>(grid.columns) +
               static_cast<size_t>(column)] = 0;
  }
  // Visits the cells that a box touches.
  template <class Visit>
  void each(const Rect& box, Visit visit) {
    const auto index = [](double at, double size, int count) {
      return std::clamp(static_cast<int>(std::floor(at / size)), 0, count - 1);
    };
    for (int row = index(box.y0 - origin.y, kCellAcrossMm, grid.rows);
         row <= index(box.y1 - origin.y, kCellAcrossMm, grid.rows); ++row)
      for (int column = index(box.x0 - origin.x, kCellAlongMm, grid.columns);
           column <= index(box.x1 - origin.x, kCellAlongMm, grid.columns); ++column)
        visit(column, row);
  }
};

// Does a segment reach the inside of a cell? Clipped to the cell (Liang and Barsky) it keeps a
// length; touching its border is none.
bool crosses(Point a, Point b, const Rect& cell) {
  constexpr double kTouch = 1e-6;
  double from = 0, to = 1;
  const auto clip = [&](double start, double step, double low, double high) {
    if (step == 0) return start > low + kTouch && start < high - kTouch;
    double t0 = (low + kTouch - start) / step, t1 = (high - kTouch - start) / step;
    if (t0 > t1) std::swap(t0, t1);
    from = std::max(from, t0);
    to = std::min(to, t1);
    return from < to;
  };
  return clip(a.x, b.x - a.x, cell.x0, cell.x1) && clip(a.y, b.y - a.y, cell.y0, cell.y1);
}

Point centre(const Rect& cell) {
  return {(cell.x0 + cell.x1) / 2, (cell.y0 + cell.y1) / 2};
}

void blockBorder(Raster& raster, const Polygon& p) {
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    const Rect box{std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
    raster.each(box, [&](int column, int row) {
      if (crosses(a, b, raster.cell(column, row))) raster.block(column, row);
    });
  }
}

void blockInside(Raster& raster, const Polygon& p, bool inside, const Rect& box) {
  raster.each(box, [&](int column, int row) {
    if (contains(p, centre(raster.cell(column, row))) == inside) raster.block(column, row);
  });
}

}  // namespace

Polygon GradeMap::polygonOf(const GridRect& c) const {
  return rectangle({origin.x + c.column0 * kCellAlongMm, origin.y + c.row0 * kCellAcrossMm,
                    origin.x + c.column1 * kCellAlongMm, origin.y + c.row1 * kCellAcrossMm});
}

GradeMap gradeMap(const Outline& outline, const std::vector<Polygon>& defects) {
  constexpr double kSlack = 1e-6;  // a board of exactly n cells has n
  GradeMap map;
  const Polygon border = outline.polygon();
  const Rect box = bounds(border);
  map.origin = {box.x0, box.y0};
  map.wood.columns = static_cast<int>(std::floor(box.width() / kCellAlongMm + kSlack));
  map.wood.rows = static_cast<int>(std::floor(box.height() / kCellAcrossMm + kSlack));
  const auto cells = static_cast<size_t>(map.wood.columns) * static_cast<size_t>(map.wood.rows);
  map.wood.clear.assign(cells, 1);
  if (cells == 0) return map;
  Raster wood{map.origin, map.wood};
  blockBorder(wood, border);
  blockInside(wood, border, false, box);
  map.clear = map.wood;
  Raster clear{map.origin, map.clear};
  for (const Polygon& defect : defects) {
    if (defect.size() < 3) continue;
    const Rect reach = bounds(defect);
    if (reach.x1 < box.x0 || reach.x0 > box.x1 || reach.y1 < box.y0 || reach.y0 > box.y1) continue;
    blockBorder(clear, defect);
    blockInside(clear, defect, true, reach);
  }
  return map;
}

}  // namespace rackside
