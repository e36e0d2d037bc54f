// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/lens/calibrate.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <opencv2/calib3d.hpp>
#include <random>

#include "tests/support/test_data.h"
#include "vision/cards/card_model.h"
#include "vision/lens/exif_prior.h"

using namespace rackside;
namespace fs = std::filesystem;

namespace {

std::vector<fs::path> chessboardPhotographs() {
  const fs::path root = rackside::test::openCvDocRoot();
  std::vector<fs::path> files;
  if (root.empty()) return files;
  for (int i = 1; i <= 14; ++i) {
    char name[32];
    std::snprintf(name, sizeof name, "left%02d.jpg", i);
    const fs::path file = root / "usr/share/doc/opencv-doc/examples/data" / name;
    if (fs::exists(file)) files.push_back(file);
  }
  return files;
}

double sigmaOfFocal(const Lens& lens) {
  return std::sqrt(lens.covariance[0]);
}

// Card points through a known lens, by OpenCV's own projection, with noise.
struct Simulated {
  std::vector<PatternView> views;
  Lens truth;
};

Simulated simulate(std::mt19937& random, double noisePx) {
  std::normal_distribution<double> noise(0, noisePx);
  std::uniform_real_distribution<double> unit(-1, 1);
  Simulated s;
  s.truth.focalPx = 3000 * (1 + 0.05 * unit(random));
  s.truth.cx = 2000 + 15 * unit(random);
  s.truth.cy = 1500 + 15 * unit(random);
  s.truth.k1 = 0.02 * unit(random);
  s.truth.k2 = 0.01 * unit(random);
  s.truth.size = {4000, 3000};
  const cv::Matx33d k(s.truth.focalPx, 0, s.truth.cx, 0, s.truth.focalPx, s.truth.cy, 0, 0, 1);
  const cv::Vec4d distortion(s.truth.k1, s.truth.k2, 0, 0);
  const CardModel card = cardModel(1);
  for (int photo = 0; photo < 12; ++photo) {
    PatternView view;
    view.name = std::to_string(photo);
    std::vector<cv::Point3d> mm;
    for (const Point& p : card.saddles) mm.emplace_back(p.x - 125, p.y - 32, 0);
    const cv::Vec3d turn(CV_PI + 0.6 * unit(random), 0.6 * unit(random), 1.5 * unit(random));
    const cv::Vec3d shift(60 * unit(random), 60 * unit(random), 280 + 40 * unit(random));
    std::vector<cv::Point2d> px;
    cv::projectPoints(mm, turn, shift, k, distortion, px);
    for (size_t i = 0; i < px.size(); ++i) {
      view.mm.push_back(card.saddles[i]);
      view.px.push_back(px[i] + cv::Point2d(noise(random), noise(random)));
      view.sigmaPx.push_back(noisePx);
    }
    s.views.push_back(view);
  }
  return s;
}

Lens priorOf(cv::Size size) {
  return lensPrior(Exif{}, size);
}

}  // namespace

// Photographs nobody here made: left01 to left14 (there is no left10) of Debian's opencv-doc.
// OpenCV's published result on them is f = 535.9 px (its camera calibration tutorial); ViSP's is
// 536.98 and 537.42 (its own calibration tutorial, without and with distortion).
TEST_CASE("the lens of OpenCV's chessboard photographs comes out as published", "[lens]") {
  const auto photographs = chessboardPhotographs();
  if (photographs.empty()) {
    WARN("skipped: the photographs are not there; tests/fetch_data.sh fetches them");
    return;
  }
  REQUIRE(photographs.size() == 13);
  CalibrateOptions options;
  options.chessboard = Chessboard{9, 6, 25};
  RunControl control;
  const auto result = calibrateLens(photographs, options, control);
  REQUIRE(result.ok());
  WARN("f " << result->lens.focalPx << " ± " << 1.96 * sigmaOfFocal(result->lens) << " px, k1 "
            << result->lens.k1 << ", k2 " << result->lens.k2 << ", rms " << result->rmsPx
            << " px, points " << result->points << ", strays " << result->strays);
  CHECK(result->photos.size() == 13);
  CHECK(result->lens.focalPx == Approx(535.9).epsilon(0.01));
  CHECK(result->rmsPx <= 0.25);
  CHECK(result->points >= 13 * 54 * 95 / 100);
}

TEST_CASE("a lens comes out of card points within its stated uncertainty", "[lens]") {
  std::mt19937 random(11);
  int inside = 0, runs = 0;
  double squares = 0;
  for (int run = 0; run < 40; ++run) {
    const Simulated s = simulate(random, 0.06);
    const auto result = calibrateFromViews(s.views, priorOf(s.truth.size));
    REQUIRE(result.ok());
    const double z = (result->lens.focalPx - s.truth.focalPx) / sigmaOfFocal(result->lens);
    ++runs;
    inside += std::abs(z) < 1.96;
    squares += z * z;
    CHECK(sigmaOfFocal(result->lens) / s.truth.focalPx < 0.003);
    CHECK(std::abs(result->lens.k1 - s.truth.k1) < 0.02);
  }
  // 95 % of 40 are 38; with fewer than 34 the stated sigma would be too small (binomial, 1 %).
  CHECK(inside >= 34);
  CHECK(std::sqrt(squares / runs) == Approx(1).margin(0.35));
}

TEST_CASE("a stray point does not bend the lens", "[lens]") {
  std::mt19937 random(3);
  Simulated s = simulate(random, 0.05);
  for (PatternView& view : s.views) view.px[5] += cv::Point2d(6, -4);
  const auto result = calibrateFromViews(s.views, priorOf(s.truth.size));
  REQUIRE(result.ok());
  CHECK(result->strays >= 12);
  CHECK(std::abs(result->lens.focalPx - s.truth.focalPx) < 3 * sigmaOfFocal(result->lens));
}

TEST_CASE("photographs that do not pin down the lens are refused with what to do", "[lens]") {
  std::mt19937 random(5);
  Simulated s = simulate(random, 0.05);
  SECTION("too few") {
    s.views.resize(2);
    const auto result = calibrateFromViews(s.views, priorOf(s.truth.size));
    REQUIRE_FALSE(result.ok());
    CHECK(result.error().message.find("at least 3") != std::string::npos);
  }
  SECTION("all the same, from straight above") {
    for (PatternView& view : s.views) {
      view.px.clear();
      for (const Point& p : view.mm)
        view.px.emplace_back(1000 + 8 * p.x + 0.05 * (random() % 7), 1500 - 8 * p.y);
    }
    const auto result = calibrateFromViews(s.views, priorOf(s.truth.size));
    REQUIRE_FALSE(result.ok());
    CHECK(result.error().message.find("tilted") != std::string::npos);
  }
}
