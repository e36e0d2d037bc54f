// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/roughness_split.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/painted_ribbon.h"
#include "vision/face/arris_path.h"
#include "vision/face/roughness.h"

using namespace rackside;
using namespace rackside::test;

namespace {

constexpr double kArrisMm = 4;  // outward of the ribbon's line

// Saw marks 4.5 mm apart along the side; their mean is 1.
float sawMarks(int row) {
  return 1 + 0.12F * float(row % 3 - 1);
}

// One colour all over; saw marks as far as the face goes and, if asked, beyond the wall too.
EdgeRibbon sawnFace(double wallMm, bool groundIsSawnToo) {
  return paintedRibbon(wallMm, [=](double offset, int row) {
    const bool face = offset < kArrisMm, ground = offset >= kArrisMm + wallMm;
    return face || (ground && groundIsSawnToo) ? cv::Vec3f(sawMarks(row) * kGreyLight) : kGreyLight;
  });
}

double shareTold(const RoughnessSplit& split) {
  return double(std::count(split.told.begin(), split.told.end(), true)) / double(split.told.size());
}

double medianOff(const ArrisPath& path) {
  std::vector<double> off;
  for (const double o : path.offsetMm) off.push_back(std::abs(o - kArrisMm));
  std::nth_element(off.begin(), off.begin() + std::ptrdiff_t(off.size() / 2), off.end());
  return off[off.size() / 2];
}

}  // namespace

TEST_CASE("where saw marks end the face ends, though the colour does not") {
  const EdgeRibbon r = sawnFace(0, false);
  CHECK(shareTold(splitByRoughness(cellsOf(r))) > 0.95);
  CHECK(medianOff(arrisPath(r, true, true)) < 2);
}

TEST_CASE("a smooth wall may be taken for ground, so its width is left open") {
  constexpr double kWallMm = 5;
  const RibbonCells cells = cellsOf(sawnFace(kWallMm, false));
  const RoughnessSplit split = splitByRoughness(cells);
  CHECK(shareTold(split) == 0);
  for (int x = 0; x < cells.colour.cols; x += 20)
    for (int y = 0; y < cells.colour.rows; ++y) {
      const double off = (y - cells.middle) * cells.acrossMm - kArrisMm;
      if (std::abs(off) < 0.5) CHECK(split.shortfall.at<float>(y, x) == 0);
      if (off < -kWallMm - 3 || off > 3) CHECK(split.shortfall.at<float>(y, x) > 0);
    }
}

TEST_CASE("ground as rough as the face tells nothing") {
  CHECK(shareTold(splitByRoughness(cellsOf(sawnFace(0, true)))) == 0);
}

TEST_CASE("shade is not a change of roughness") {
  const EdgeRibbon r = paintedRibbon(0, [](double offset, int row) {
    return cv::Vec3f((offset < kArrisMm ? 1.0F : 0.5F) * sawMarks(row) * kGreyLight);
  });
  CHECK(shareTold(splitByRoughness(cellsOf(r))) == 0);
}

TEST_CASE("a roughness model with too little to learn from knows nothing") {
  const std::vector<cv::Vec3f> few(10, cv::Vec3f(1, 1, 1)), many(500, cv::Vec3f(3, 3, 3));
  CHECK_FALSE(RoughnessModel(few, many).knows());
  CHECK(RoughnessModel(few, many).evidence({1, 1, 1}) == 0);
}

TEST_CASE("a roughness model takes each surface for itself") {
  std::vector<cv::Vec3f> smooth, rough;
  cv::RNG random(7);
  for (int i = 0; i < 1000; ++i) {
    smooth.emplace_back(float(random.uniform(0.8, 1.2)), 1, 1);
    rough.emplace_back(float(random.uniform(2.0, 3.0)), 2, 2);
  }
  const RoughnessModel model(rough, smooth);
  int right = 0;
  for (size_t i = 0; i < smooth.size(); ++i)
    right += (model.evidence(smooth[i]) < 0) + (model.evidence(rough[i]) > 0);
  CHECK(right == 2000);
}

TEST_CASE("changes along are shares of the light there") {
  cv::Mat light(1, 4, CV_32F);
  for (int x = 0; x < 4; ++x) light.at<float>(0, x) = x == 2 ? 60.0F : 48.0F;
  const cv::Mat changes = changesAlong(light), twice = changesAlong(2 * light);
  CHECK(changes.at<cv::Vec3f>(0, 2)[0] == Approx(100 * 12.0 / 62));
  CHECK(changes.at<cv::Vec3f>(0, 3)[0] == Approx(100 * 12.0 / 50));
  CHECK(changes.at<cv::Vec3f>(0, 3)[1] == 0);
  CHECK(twice.at<cv::Vec3f>(0, 2)[0] == Approx(changes.at<cv::Vec3f>(0, 2)[0]).epsilon(0.05));
}
