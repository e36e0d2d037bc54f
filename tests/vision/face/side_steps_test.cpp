// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/side_steps.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace rackside;

namespace {

constexpr int kPoints = 1000;

// A live edge, shifted outward before point `until`.
std::vector<EdgePoint> liveSide(int until, double shiftMm) {
  std::vector<EdgePoint> side;
  for (int i = 0; i < kPoints; ++i) {
    const double y = 6 * std::sin(i / 40.0) + (i < until ? shiftMm : 0);
    side.push_back({{i * kEdgeStepMm, y}, 0.2, EdgeState::sure});
  }
  return side;
}

int sureBetween(const std::vector<EdgePoint>& side, int from, int to) {
  return int(std::count_if(side.begin() + from, side.begin() + to,
                           [](const EdgePoint& p) { return p.state == EdgeState::sure; }));
}

}  // namespace

TEST_CASE("past a step only the longest piece of a side is believed") {
  std::vector<EdgePoint> side = liveSide(300, 20);
  doubtBeyondSteps(side);
  CHECK(sureBetween(side, 0, 285) == 0);
  CHECK(sureBetween(side, 315, kPoints) == kPoints - 315);
  CHECK(side.front().sigmaMm > 4);
}

TEST_CASE("a live edge without steps stays sure") {
  std::vector<EdgePoint> side = liveSide(0, 0);
  doubtBeyondSteps(side);
  CHECK(sureBetween(side, 0, kPoints) == kPoints);
  std::vector<EdgePoint> few(side.begin(), side.begin() + 5);
  doubtBeyondSteps(few);
  CHECK(sureBetween(few, 0, 5) == 5);
}
