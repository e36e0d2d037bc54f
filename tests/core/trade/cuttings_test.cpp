// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/cuttings.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace rackside;

namespace {

CuttingGrid randomGrid(std::mt19937& random, int columns, int rows, int spots, int largestSpot) {
  CuttingGrid g{columns, rows, std::vector<char>(static_cast<size_t>(columns * rows), 1)};
  const auto any = [&random](int most) {
    return std::uniform_int_distribution<int>(0, most)(random);
  };
  for (int i = 0; i < spots; ++i) {
    const int c0 = any(columns - 1), r0 = any(rows - 1), w = 1 + any(largestSpot - 1),
              h = 1 + any(largestSpot - 1);
    for (int r = r0; r < std::min(rows, r0 + h); ++r)
      for (int c = c0; c < std::min(columns, c0 + w); ++c)
        g.clear[static_cast<size_t>(r * columns + c)] = 0;
  }
  return g;
}

// Tries every set of rectangles, in the order of their first cell; written apart from the search
// and slow, for small boards only.
class Exhaustive {
 public:
  Exhaustive(const CuttingGrid& grid, const CuttingSearch& search) : g_(grid), s_(search) {}
  long long best() { return from(0, s_.most, g_.clear); }

 private:
  long long from(int cell, int left, const std::vector<char>& clear) {
    if (left == 0) return 0;
    long long best = 0;
    for (int i = cell; i < g_.columns * g_.rows; ++i) {
      if (!clear[static_cast<size_t>(i)]) continue;
      const int c0 = i % g_.columns, r0 = i / g_.columns;
      for (int r1 = r0 + 1; r1 <= g_.rows; ++r1)
        for (int c1 = c0 + 1; c1 <= g_.columns; ++c1) {
          if (!isClear(clear, c0, r0, c1, r1)) break;
          if (!allowed(c1 - c0, r1 - r0)) continue;
          std::vector<char> rest = clear;
          for (int r = r0; r < r1; ++r)
            for (int c = c0; c < c1; ++c) rest[static_cast<size_t>(r * g_.columns + c)] = 0;
          best = std::max(best, (c1 - c0) * (r1 - r0) + from(i + 1, left - 1, rest));
        }
    }
    return best;
  }
  bool isClear(const std::vector<char>& clear, int c0, int r0, int c1, int r1) const {
    for (int r = r0; r < r1; ++r)
      for (int c = c0; c < c1; ++c)
        if (!clear[static_cast<size_t>(r * g_.columns + c)]) return false;
    return true;
  }
  bool allowed(int columns, int rows) const {
    for (const LeastCutting& l : s_.least)
      if (columns >= l.columns && rows >= l.rows) return true;
    return false;
  }
  const CuttingGrid& g_;
  const CuttingSearch& s_;
};

void checkHolds(const CuttingGrid& g, const CuttingSearch& s, const CuttingResult& r) {
  long long cells = 0;
  std::vector<char> taken(g.clear.size());
  REQUIRE(static_cast<int>(r.cuttings.size()) <= s.most);
  for (const GridRect& c : r.cuttings) {
    CHECK(std::any_of(s.least.begin(), s.least.end(), [&c](const LeastCutting& l) {
      return c.columns() >= l.columns && c.rows() >= l.rows;
    }));
    cells += c.area();
    for (int row = c.row0; row < c.row1; ++row)
      for (int column = c.column0; column < c.column1; ++column) {
        const auto i = static_cast<size_t>(row * g.columns + column);
        if (!g.clear[i] || taken[i]) FAIL("a cutting lies on a defect or on another");
        taken[i] = 1;
      }
  }
  CHECK(cells == r.cells);
  CHECK(r.bound >= r.cells);
}

}  // namespace

TEST_CASE("the best cuttings of small boards are those of an exhaustive search") {
  std::mt19937 random(2024);
  const std::vector<std::vector<LeastCutting>> kinds = {
      {{2, 1}}, {{2, 2}}, {{4, 1}, {2, 2}}, {{3, 2}, {5, 1}}};
  for (int i = 0; i < 500; ++i) {
    const CuttingGrid grid = randomGrid(random, 6 + i % 3, 3 + i % 2, 2 + i % 5, 2);
    CuttingSearch search;
    search.least = kinds[static_cast<size_t>(i) % kinds.size()];
    search.most = 1 + i % 3;
    search.limitSteps = 1000000;
    const CuttingResult found = bestCuttings(grid, search);
    checkHolds(grid, search, found);
    REQUIRE(found.bound == found.cells);
    REQUIRE(found.cells == Exhaustive(grid, search).best());
  }
}

TEST_CASE("a search that is stopped still gives a bound, and a question is answered early") {
  std::mt19937 random(5);
  const CuttingGrid grid = randomGrid(random, 144, 40, 30, 8);
  CuttingSearch search{{{36, 12}, {24, 16}}, 5, -1, 0};
  const CuttingResult hasty = bestCuttings(grid, search);
  CHECK(hasty.bound >= hasty.cells);
  search.limitSteps = 500;
  const CuttingResult longer = bestCuttings(grid, search);
  checkHolds(grid, search, longer);
  CHECK(longer.cells >= hasty.cells);
  CHECK(longer.bound <= hasty.bound);
  search.limitSteps = 1000000;  // a question ends by its answer
  search.enough = longer.cells / 2;
  CHECK(bestCuttings(grid, search).reaches(search.enough));
  search.enough = longer.bound + 1;
  CHECK(bestCuttings(grid, search).cannotReach(search.enough));
}

TEST_CASE("a clear board is one cutting, a board of defects none") {
  CuttingGrid grid{96, 24, std::vector<char>(96 * 24, 1)};
  const CuttingSearch search{{{60, 16}}, 4, -1, 1000};
  const CuttingResult all = bestCuttings(grid, search);
  CHECK(all.cells == 96 * 24);
  CHECK(all.cuttings.size() == 1);
  CHECK(all.bound == all.cells);
  grid.clear.assign(grid.clear.size(), 0);
  CHECK(bestCuttings(grid, search).cells == 0);
  CHECK(bestCuttings(CuttingGrid{}, search).cells == 0);
}
