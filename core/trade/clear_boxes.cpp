// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/clear_boxes.h"

#include <algorithm>

namespace rackside {
namespace {

// Turns the corner counts of painted rectangles into the set of cells under any of them.
CellSet paintedCells(const CuttingGrid& grid, const std::vector<GridRect>& painted) {
  const size_t width = static_cast<size_t>(grid.columns) + 1;
  std::vector<int> step(width * (static_cast<size_t>(grid.rows) + 1));
  const auto cell = [&](int column, int row) -> int& {
    return step[static_cast<size_t>(row) * width + static_cast<size_t>(column)];
  };
  for (const GridRect& r : painted) {
    ++cell(r.column0, r.row0);
    --cell(r.column1, r.row0);
    --cell(r.column0, r.row1);
    ++cell(r.column1, r.row1);
  }
  const size_t cells = static_cast<size_t>(grid.columns) * static_cast<size_t>(grid.rows);
  CellSet set((cells + 63) / 64);
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column) {
      int& here = cell(column, row);
      if (column > 0) here += cell(column - 1, row);
      if (row > 0) here += cell(column, row - 1);
      if (column > 0 && row > 0) here -= cell(column - 1, row - 1);
      const size_t index = static_cast<size_t>(row) * static_cast<size_t>(grid.columns) +
                           static_cast<size_t>(column);
      if (here > 0) set[index / 64] |= std::uint64_t{1} << (index % 64);
    }
  return set;
}

}  // namespace

bool ClearBoxes::longEnough(const GridRect& r) const {
  return std::any_of(least_.begin(), least_.end(), [&r](const LeastCutting& l) {
    return r.columns() >= l.columns && r.rows() >= l.rows;
  });
}

// Visits every rectangle of the box that cannot grow upward, left or right (and some that can grow
// down): the heights of clear columns above each row, closed by a stack.
template <class Visit>
void ClearBoxes::eachMaximal(const CuttingGrid& grid, const GridRect& box, Visit visit) const {
  struct Open {
    int column;
    int height;
  };
  std::vector<int> height(static_cast<size_t>(std::max(box.columns(), 0)));
  std::vector<Open> open;
  for (int row = box.row0; row < box.row1; ++row) {
    open.clear();
    for (int i = 0; i <= box.columns(); ++i) {
      int h = 0;
      if (i < box.columns()) {
        int& own = height[static_cast<size_t>(i)];
        own = grid.at(box.column0 + i, row) ? own + 1 : 0;
        h = own;
      }
      int start = i;
      while (!open.empty() && open.back().height > h) {
        start = open.back().column;
        const GridRect r{box.column0 + start, row + 1 - open.back().height, box.column0 + i,
                         row + 1};
        if (longEnough(r)) visit(r);
        open.pop_back();
      }
      if (h > 0 && (open.empty() || open.back().height < h)) open.push_back({start, h});
    }
  }
}

const BoxContent& ClearBoxes::content(const GridRect& box) {
  const auto found = known_.find(box);
  if (found != known_.end()) return found->second;
  BoxContent content;
  std::vector<GridRect> all;
  eachMaximal(grid_, box, [&](const GridRect& r) {
    all.push_back(r);
    if (r.area() > content.largest.area()) content.largest = r;
  });
  content.coverable = paintedCells(grid_, all);
  return known_.emplace(box, std::move(content)).first->second;
}

GridRect ClearBoxes::largestBeside(const GridRect& box, const std::vector<GridRect>& taken) const {
  CuttingGrid left = grid_;
  for (const GridRect& t : taken)
    for (int row = t.row0; row < t.row1; ++row)
      for (int column = t.column0; column < t.column1; ++column)
        left.clear[static_cast<size_t>(row) * static_cast<size_t>(left.columns) +
                   static_cast<size_t>(column)] = 0;
  GridRect largest;
  eachMaximal(left, box, [&largest](const GridRect& r) {
    if (r.area() > largest.area()) largest = r;
  });
  return largest;
}

}  // namespace rackside
