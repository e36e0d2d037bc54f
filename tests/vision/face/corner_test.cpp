// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/corner.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace rackside;

namespace {

// A side from `from` to `to`, pushed off its line towards its normal by off(distance from `from`).
template <class Off>
std::vector<EdgePoint> side(Point from, Point to, EdgeState state, Off off) {
  std::vector<EdgePoint> points;
  const double length = norm(to - from);
  const Point along = (1 / length) * (to - from), normal{-along.y, along.x};
  const int steps = int(length / kEdgeStepMm);
  points.reserve(size_t(steps) + 1);
  for (int i = 0; i <= steps; ++i) {
    const double t = i * kEdgeStepMm;
    points.push_back({from + t * along + off(t) * normal, 0.1, state});
  }
  return points;
}

std::vector<EdgePoint> straight(Point from, Point to) {
  return side(from, to, EdgeState::sure, [](double) { return 0.0; });
}

// Level farther in than 40 mm from its start, from there rising by 4 mm.
std::vector<EdgePoint> rising(EdgeState state) {
  return side({0, 0}, {600, 0}, state, [](double t) { return 0.1 * std::max(0.0, 40 - t); });
}

}  // namespace

TEST_CASE("straight sides meet where their lines cross, though one was read from farther in") {
  const auto lower = straight({1, 0}, {600, 0}), left = straight({0, 12}, {3, 200});
  const Point at = cornerOf(lower, true, left, true);
  CHECK(at.x == Approx(-0.19).margin(0.05));
  CHECK(at.y == Approx(0).margin(0.05));
}

TEST_CASE("a corner lies where a side is clearly seen to run, not on its line farther in") {
  const auto left = straight({0, 6}, {0, 200});
  CHECK(cornerOf(rising(EdgeState::sure), true, left, true).y == Approx(4).margin(0.3));
  CHECK(cornerOf(rising(EdgeState::unsure), true, left, true).y == Approx(0).margin(0.1));
}

TEST_CASE("sides whose lines cross far from both have no corner there") {
  const auto lower = straight({0, 0}, {600, 0}), left = straight({-80, 90}, {-80, 300});
  const Point at = cornerOf(lower, true, left, true);
  CHECK(at.x == Approx(-40));
  CHECK(at.y == Approx(45));
}
