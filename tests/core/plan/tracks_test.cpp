// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/tracks.h"

#include <catch2/catch.hpp>
#include <random>

#include "core/geometry/polygon.h"

using namespace rackside;

namespace {

bool within(const Intervals& all, double y) {
  for (const Interval& i : all)
    if (y >= i.lo && y <= i.hi) return true;
  return false;
}

Polygon randomStar(std::mt19937& random) {
  std::uniform_real_distribution<double> u(0, 1);
  Polygon star;
  for (int i = 0; i < 12; ++i) {
    const double a = 2 * M_PI * i / 12, r = 20 + 60 * u(random);
    star.push_back({100 + r * std::cos(a), 100 + r * std::sin(a)});
  }
  return star;
}

bool onTracks(const std::vector<Track>& tracks, int column, double y) {
  for (const Track& t : tracks) {
    if (column < t.firstColumn() || column > t.lastColumn()) continue;
    const Interval r = t.over(column, column);
    if (y >= r.lo && y <= r.hi) return true;
  }
  return false;
}

// Is (x, y) inside the star for some x of the column?
bool metInColumn(const Polygon& star, int column, double y) {
  for (int k = 0; k <= 400; ++k)
    if (contains(star, {5 * (column + k / 400.0), y})) return true;
  return false;
}

}  // namespace

TEST_CASE("columns cover every inside point of random stars, and little more", "[tracks]") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> u(0, 200);
  const ColumnGrid grid{0, 5, 40};
  for (int trial = 0; trial < 50; ++trial) {
    const Polygon star = randomStar(random);
    const auto columns = projectOnColumns({star}, grid);
    const auto tracks = tracksOf(columns);
    for (int i = 0; i < 2000; ++i) {
      const Point q{u(random), u(random)};
      const int c = static_cast<int>(q.x / 5);
      if (contains(star, q)) REQUIRE(within(columns[c], q.y));
      REQUIRE(onTracks(tracks, c, q.y) == within(columns[c], q.y));
    }
    for (int c = 0; c < grid.count; ++c)
      for (const Interval& i : columns[c]) {
        if (i.hi - i.lo < 1) continue;  // half a millimetre in from a tip, finer than the samples
        for (const double y : {i.lo + 0.5, i.hi - 0.5}) CHECK(metInColumn(star, c, y));
      }
  }
}

TEST_CASE("a track answers the union over a run of columns", "[tracks]") {
  std::vector<Interval> steps;
  for (int i = 0; i < 37; ++i) steps.push_back({10.0 + i % 7, 30.0 + i % 5});
  const Track track(3, steps);
  for (int a = 3; a <= 39; ++a)
    for (int b = a; b <= 39; ++b) {
      Interval all = steps[a - 3];
      for (int c = a; c <= b; ++c)
        all = {std::min(all.lo, steps[c - 3].lo), std::max(all.hi, steps[c - 3].hi)};
      CHECK(track.over(a, b).lo == all.lo);
      CHECK(track.over(a, b).hi == all.hi);
    }
}
