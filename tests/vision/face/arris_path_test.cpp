// SPDX-License-Identifier: GPL-3.0-or-later
// Ribbons painted for these tests: brown face, grey ground, a soft shadow or a side wall between.
#include "vision/face/arris_path.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace rackside;

namespace {

constexpr double kStepMm = 0.25;
constexpr int kMiddle = 160, kColumns = 240, kRows = 800;

EdgeRibbon painted(double wallMm) {
  EdgeRibbon r;
  r.stepMm = kStepMm, r.middle = kMiddle;
  for (int i = 0; i < kRows; ++i)
    r.rows.push_back({{i * 1.5, 0}, {0, 1}, wallMm, 0.5, false, true});
  r.light.create(kRows, kColumns, CV_32FC3);
  return r;
}

// `colourAt(offset)`: linear light, blue first; grain and noise are added.
template <class Colour>
void paint(EdgeRibbon& r, Colour colourAt) {
  cv::RNG random(3);
  cv::Mat grain(kRows, kColumns, CV_32F);
  random.fill(grain, cv::RNG::NORMAL, 1, 0.06);
  for (int y = 0; y < kRows; ++y)
    for (int x = 0; x < kColumns; ++x)
      r.light.at<cv::Vec3f>(y, x) = grain.at<float>(y, x) * colourAt((x - kMiddle) * kStepMm);
}

const cv::Vec3f kBrown{0.08F, 0.12F, 0.19F}, kGrey{0.23F, 0.28F, 0.33F};

double meanOffset(const ArrisPath& path) {
  double sum = 0;
  for (const double o : path.offsetMm) sum += o;
  return sum / double(path.offsetMm.size());
}

}  // namespace

TEST_CASE("a shadow that ends beside a board is not its arris") {
  EdgeRibbon r = painted(0);
  // The ground next to the board lies in shadow as dark as the board, and is lit from 5 mm on.
  paint(r, [](double offset) {
    if (offset < 0) return kBrown;
    return float(std::clamp((offset - 4) / 2, 0.45, 1.0)) * kGrey;
  });
  CHECK(std::abs(meanOffset(arrisPath(r, true, true))) < 0.6);
}

TEST_CASE("the foot of a wall is not the arris") {
  constexpr double kWallMm = 4;
  EdgeRibbon r = painted(kWallMm);
  paint(r, [](double offset) {
    if (offset < 0) return kBrown;
    return offset < kWallMm ? 0.93F * kBrown : kGrey;
  });
  CHECK(std::abs(meanOffset(arrisPath(r, true, true))) < kWallMm / 2);
}

TEST_CASE("a side that follows one curve says so, a live edge does not") {
  EdgeRibbon sawn = painted(0);
  paint(sawn, [](double offset) { return offset < 0 ? kBrown : kGrey; });
  const ArrisPath straight = arrisPath(sawn, true, true);
  CHECK(straight.onCurve > 0.95);
  CHECK(straight.curveMm.size() == straight.offsetMm.size());

  EdgeRibbon live = painted(0);
  for (int y = 0; y < kRows; ++y)
    for (int x = 0; x < kColumns; ++x) {
      const double edge = 4 * std::sin(y / 25.0);
      live.light.at<cv::Vec3f>(y, x) = (x - kMiddle) * kStepMm < edge ? kBrown : kGrey;
    }
  CHECK(arrisPath(live, true, false).curveMm.empty());
}
