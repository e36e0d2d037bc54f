// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/narrow_wall.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace rackside;

namespace {

constexpr double kStepMm = 0.3, kPixelMm = 0.7, kWallMm = 1.8;

// An unrolled side whose arris lies at `arrisMm`, with three plain levels, blurred, and some noise.
EdgeRibbon ribbonWith(double arrisMm, float face, float wall, float ground) {
  EdgeRibbon r;
  r.stepMm = kStepMm;
  r.middle = 40;
  r.rows.resize(80);
  for (RibbonRow& row : r.rows) row.wallMm = kWallMm, row.mmPerPx = kPixelMm;
  r.light.create(80, 81, CV_32FC3);
  cv::theRNG().state = 3;
  cv::randn(r.light, 0, 0.004);
  const auto past = [](double x, double at) {
    return 0.5 * std::erfc((at - x) / (0.8 * kPixelMm * std::sqrt(2.0)));
  };
  for (int i = 0; i < r.light.rows; ++i)
    for (int k = 0; k < r.light.cols; ++k) {
      const double x = (k - r.middle) * kStepMm, a = past(x, arrisMm),
                   b = past(x, arrisMm + kWallMm);
      const float level = float(face * (1 - a) + wall * (a - b) + ground * b);
      r.light.at<cv::Vec3f>(i, k) += cv::Vec3f(level, level, level);
    }
  return r;
}

double placed(const EdgeRibbon& ribbon, double nearMm) {
  std::vector<OffsetReading> readings(ribbon.rows.size());
  readNarrowWalls(ribbon, std::vector<double>(ribbon.rows.size(), nearMm), readings);
  double sum = 0;
  for (const OffsetReading& r : readings) {
    REQUIRE(r.sigmaMm > 0);
    sum += r.offsetMm / double(readings.size());
  }
  return sum;
}

}  // namespace

TEST_CASE("a dark sliver of wall against light ground does not draw the arris to its foot") {
  for (const double arris : {-0.4, 0.0, 0.6})
    CHECK(placed(ribbonWith(arris, 0.35f, 0.15f, 0.45f), 0.3) == Approx(arris).margin(0.15));
}

TEST_CASE("a shadowed ground goes with a shadowed wall") {
  CHECK(placed(ribbonWith(0.2, 0.35f, 0.1f, 0.1f), 0.4) == Approx(0.2).margin(0.2));
}

TEST_CASE("one step to lighter ground may be arris or foot: the middle is taken") {
  CHECK(placed(ribbonWith(0, 0.25f, 0.25f, 0.5f), 0.3) == Approx(kWallMm / 2).margin(0.3));
  CHECK(placed(ribbonWith(0, 0.25f, 0.5f, 0.5f), 0.3) == Approx(-kWallMm / 2).margin(0.3));
}

TEST_CASE("a wall that is wide or not to be seen is left to the steepest place") {
  RibbonRow row;
  row.mmPerPx = kPixelMm;
  for (const double wall : {0.0, 0.3, 6.0}) {
    row.wallMm = wall;
    CHECK_FALSE(isNarrowWall(row));
  }
}
