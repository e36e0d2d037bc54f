// SPDX-License-Identifier: GPL-3.0-or-later
// The best few rectangles of clear wood: a search that is exact on its grid, or says how much
// better a result could still be.
#pragma once

#include <compare>
#include <cstddef>
#include <vector>

namespace rackside {

// A board face in cells; row by row, true where a whole cell is clear.
struct CuttingGrid {
  int columns = 0;  // along the board
  int rows = 0;     // across
  std::vector<char> clear;
  bool at(int column, int row) const {
    return clear[static_cast<size_t>(row) * static_cast<size_t>(columns) +
                 static_cast<size_t>(column)] != 0;
  }
};

// Cells [column0, column1) × [row0, row1).
struct GridRect {
  int column0 = 0, row0 = 0, column1 = 0, row1 = 0;
  int columns() const { return column1 - column0; }
  int rows() const { return row1 - row0; }
  long long area() const { return static_cast<long long>(columns()) * rows(); }
  auto operator<=>(const GridRect&) const = default;
};

struct LeastCutting {
  int columns = 1;
  int rows = 1;
};

struct CuttingSearch {
  std::vector<LeastCutting> least;  // a cutting has to reach one of them
  int most = 1;                     // cuttings, which do not overlap
  long long enough = -1;        // cells that will do: the search ends once it knows; < 0: the most
  long long limitSteps = 2000;  // boxes looked at: the same on every machine
};

struct CuttingResult {
  std::vector<GridRect> cuttings;
  long long cells = 0;
  long long bound = 0;  // no choice covers more; equal to `cells` when proven
  bool reaches(long long wanted) const { return cells >= wanted; }
  bool cannotReach(long long wanted) const { return bound < wanted; }
};

// Branch and bound over boxes: each cutting is confined to a box, and a choice of boxes is worth no
// more than the largest clear rectangles in them, nor than the clear cells they can cover. Where
// two such rectangles overlap, one of the two must leave the middle of the overlap free, so it lies
// left, right, below or above of it: eight smaller problems.
CuttingResult bestCuttings(const CuttingGrid& grid, const CuttingSearch& search);

}  // namespace rackside
