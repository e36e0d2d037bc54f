// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/arris_path.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "tests/support/painted_ribbon.h"

using namespace rackside;
using namespace rackside::test;

namespace {

double meanOffset(const ArrisPath& path) {
  return std::accumulate(path.offsetMm.begin(), path.offsetMm.end(), 0.0) /
         double(path.offsetMm.size());
}

}  // namespace

TEST_CASE("a shadow that ends beside a board is not its arris") {
  // The ground next to the board lies in shadow as dark as the board, and is lit from 6 mm on.
  const EdgeRibbon r = paintedRibbon(0, [](double offset, int) {
    if (offset < 0) return kBrownLight;
    return cv::Vec3f(float(std::clamp((offset - 4) / 2, 0.45, 1.0)) * kGreyLight);
  });
  CHECK(std::abs(meanOffset(arrisPath(r, true, true))) < 0.6);
}

TEST_CASE("the foot of a wall is not the arris") {
  constexpr double kWallMm = 4;
  const EdgeRibbon r = paintedRibbon(kWallMm, [](double offset, int) {
    if (offset < 0) return kBrownLight;
    return offset < kWallMm ? cv::Vec3f(0.93F * kBrownLight) : kGreyLight;
  });
  CHECK(std::abs(meanOffset(arrisPath(r, true, true))) < kWallMm / 2);
}

TEST_CASE("a side that follows one curve says so, a live edge does not") {
  const auto sawnSide = [](double offset, int) { return offset < 0 ? kBrownLight : kGreyLight; };
  const ArrisPath sawn = arrisPath(paintedRibbon(0, sawnSide), true, true);
  CHECK(sawn.onCurve > 0.95);
  CHECK(sawn.curveMm.size() == sawn.offsetMm.size());

  const auto liveEdge = [](double offset, int row) {
    return offset < 4 * std::sin(row / 25.0) ? kBrownLight : kGreyLight;
  };
  CHECK(arrisPath(paintedRibbon(0, liveEdge), true, false).curveMm.empty());
}
