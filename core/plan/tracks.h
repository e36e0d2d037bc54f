// SPDX-License-Identifier: GPL-3.0-or-later
// Polygons seen through narrow columns: for each column, the y that something in it covers. Exact
// in y (up to the column's width), so that no accuracy is lost where it matters most: across the
// board.
#pragma once

#include <vector>

#include "core/geometry/shapes.h"

namespace rackside {

struct Interval {
  double lo = 0;
  double hi = 0;
};
using Intervals = std::vector<Interval>;  // ascending, disjoint

// Columns [first + k·width, first + (k + 1)·width) for k = 0 … count − 1.
struct ColumnGrid {
  double first = 0;
  double width = 5;
  int count = 0;
};

// Per column, the y covered by the even-odd inside of `polygons` at any x of the column.
std::vector<Intervals> projectOnColumns(const Polygons& polygons, const ColumnGrid& grid);

// A chain of columns whose intervals overlap from one to the next, so that their union over any run
// of columns is one interval, answered in constant time.
class Track {
 public:
  Track(int firstColumn, const std::vector<Interval>& intervals);
  int firstColumn() const { return first_; }
  int lastColumn() const { return first_ + static_cast<int>(columns_.size()) - 1; }
  // The union over columns from…to, both inside the track.
  Interval over(int from, int to) const;

 private:
  // Rounded inwards, so that what just fits still does; there are many of them.
  struct Narrow {
    float lo, hi;
  };
  static constexpr int kBlock = 16;
  static Narrow rounded(Interval i);
  static Narrow both(Narrow a, Narrow b);
  Narrow overSome(int from, int to) const;  // inside one block

  int first_;
  std::vector<Narrow> columns_;
  std::vector<std::vector<Narrow>> blocks_;  // [k][i]: union over 2^k blocks from i
};

// `firstColumn`: number of the first of the columns.
std::vector<Track> tracksOf(const std::vector<Intervals>& columns, int firstColumn = 0);

}  // namespace rackside
