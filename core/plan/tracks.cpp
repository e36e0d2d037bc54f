// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/tracks.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

namespace rackside {
namespace {

void mergeInPlace(Intervals& all) {
  std::sort(all.begin(), all.end(), [](auto a, auto b) { return a.lo < b.lo; });
  size_t kept = 0;
  for (size_t i = 0; i < all.size(); ++i) {
    if (kept > 0 && all[i].lo <= all[kept - 1].hi)
      all[kept - 1].hi = std::max(all[kept - 1].hi, all[i].hi);
    else
      all[kept++] = all[i];
  }
  all.resize(kept);
}

struct Edges {
  std::vector<std::vector<double>> crossings;  // at each column border, count + 1 of them
  std::vector<Intervals> ranges;               // y of the edges inside each column
};

// The stretch of an edge from x = a to x = b, both inside its span.
Interval rangeOf(Point p, Point q, double a, double b) {
  const double run = q.x - p.x;
  const auto at = [&](double x) { return run == 0 ? p.y : p.y + (q.y - p.y) * (x - p.x) / run; };
  if (run == 0) return {std::min(p.y, q.y), std::max(p.y, q.y)};
  const double ya = at(a), yb = at(b);
  return {std::min(ya, yb), std::max(ya, yb)};
}

void addEdge(Point p, Point q, const ColumnGrid& grid, Edges& edges) {
  if (p.x > q.x) std::swap(p, q);
  const auto columnOf = [&](double x) {
    return static_cast<int>(std::floor((x - grid.first) / grid.width));
  };
  const int from = std::max(0, columnOf(p.x)), to = std::min(grid.count, columnOf(q.x));
  for (int c = from; c <= to; ++c) {
    const double left = grid.first + c * grid.width, right = left + grid.width;
    // Half open, so that a vertex on a border is counted once.
    if (left >= p.x && left < q.x) edges.crossings[c].push_back(rangeOf(p, q, left, left).lo);
    if (c < grid.count && right >= p.x)
      edges.ranges[c].push_back(rangeOf(p, q, std::max(left, p.x), std::min(right, q.x)));
  }
}

Edges edgesOn(const Polygons& polygons, const ColumnGrid& grid) {
  Edges edges;
  edges.crossings.resize(grid.count + 1);
  edges.ranges.resize(grid.count);
  for (const Polygon& p : polygons)
    for (size_t i = 0; i < p.size(); ++i) addEdge(p[i], p[(i + 1) % p.size()], grid, edges);
  for (auto& at : edges.crossings) std::sort(at.begin(), at.end());
  return edges;
}

void addPairs(const std::vector<double>& crossings, Intervals& out) {
  for (size_t i = 0; i + 1 < crossings.size(); i += 2)
    out.push_back({crossings[i], crossings[i + 1]});
}

}  // namespace

std::vector<Intervals> projectOnColumns(const Polygons& polygons, const ColumnGrid& grid) {
  Edges edges = edgesOn(polygons, grid);
  for (int c = 0; c < grid.count; ++c) {
    addPairs(edges.crossings[c], edges.ranges[c]);
    addPairs(edges.crossings[c + 1], edges.ranges[c]);
    mergeInPlace(edges.ranges[c]);
  }
  return std::move(edges.ranges);
}

Track::Narrow Track::rounded(Interval i) {
  Narrow n{static_cast<float>(i.lo), static_cast<float>(i.hi)};
  constexpr float kUp = std::numeric_limits<float>::infinity();
  if (n.lo < i.lo) n.lo = std::nextafter(n.lo, kUp);
  if (n.hi > i.hi) n.hi = std::nextafter(n.hi, -kUp);
  return n;
}

Track::Narrow Track::both(Narrow a, Narrow b) {
  return {std::min(a.lo, b.lo), std::max(a.hi, b.hi)};
}

Track::Track(int firstColumn, const std::vector<Interval>& intervals) : first_(firstColumn) {
  columns_.reserve(intervals.size());
  for (const Interval& i : intervals) columns_.push_back(rounded(i));
  const int count = static_cast<int>(columns_.size());
  blocks_.emplace_back();
  for (int i = 0; i < count; i += kBlock)
    blocks_[0].push_back(overSome(i, std::min(count, i + kBlock) - 1));
  for (size_t reach = 1; 2 * reach <= blocks_[0].size(); reach *= 2) {
    const auto& half = blocks_.back();
    std::vector<Narrow> whole(blocks_[0].size() - 2 * reach + 1);
    for (size_t i = 0; i < whole.size(); ++i) whole[i] = both(half[i], half[i + reach]);
    blocks_.push_back(std::move(whole));
  }
}

Track::Narrow Track::overSome(int from, int to) const {
  Narrow all = columns_[from];
  for (int i = from + 1; i <= to; ++i) all = both(all, columns_[i]);
  return all;
}

Interval Track::over(int from, int to) const {
  const int a = from - first_, b = to - first_;
  const int blockA = a / kBlock, blockB = b / kBlock;
  if (blockA == blockB) {
    const Narrow all = overSome(a, b);
    return {all.lo, all.hi};
  }
  Narrow all = both(overSome(a, (blockA + 1) * kBlock - 1), overSome(blockB * kBlock, b));
  if (const int between = blockB - blockA - 1; between > 0) {
    const int k = std::bit_width(static_cast<unsigned>(between)) - 1;
    all = both(all, both(blocks_[k][blockA + 1], blocks_[k][blockB - (1 << k)]));
  }
  return {all.lo, all.hi};
}

std::vector<Track> tracksOf(const std::vector<Intervals>& columns, int firstColumn) {
  struct Open {
    int first;
    std::vector<Interval> intervals;
    int last;
  };
  std::vector<Open> open;
  std::vector<Track> done;
  for (int c = 0; c < static_cast<int>(columns.size()); ++c) {
    for (const Interval& i : columns[c]) {
      const auto continues = [&](const Open& o) {
        const Interval& e = o.intervals.back();
        return o.last == c - 1 && i.lo <= e.hi && e.lo <= i.hi;
      };
      auto found = std::find_if(open.begin(), open.end(), continues);
      if (found == open.end()) {
        open.push_back({c, {i}, c});
      } else {
        found->intervals.push_back(i);
        found->last = c;
      }
    }
    std::erase_if(open, [&](const Open& o) {
      if (o.last == c) return false;
      done.emplace_back(firstColumn + o.first, o.intervals);
      return true;
    });
  }
  for (const Open& o : open) done.emplace_back(firstColumn + o.first, o.intervals);
  return done;
}

}  // namespace rackside
