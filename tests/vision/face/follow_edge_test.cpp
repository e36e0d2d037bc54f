// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/follow_edge.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <opencv2/imgproc.hpp>

using namespace rackside;

namespace {

constexpr double kMmPerPx = 0.5, kHeightMm = 120;
constexpr std::array<double, 6> kBoardFromPicture = {kMmPerPx, 0, 0, 0, -kMmPerPx, kHeightMm};

double wavyEdge(double x) {
  return 60 + 6 * std::sin(x / 45);
}

// Wood below a wavy edge, floor above it, with noise and a dark grain line inside the wood.
cv::Mat picture(double contrast) {
  cv::Mat bgr(int(kHeightMm / kMmPerPx), 800, CV_8UC3);
  for (int y = 0; y < bgr.rows; ++y)
    for (int x = 0; x < bgr.cols; ++x) {
      const double bx = x * kMmPerPx, by = kHeightMm - y * kMmPerPx;
      const double wood = std::clamp(0.5 + (wavyEdge(bx) - by) / kMmPerPx, 0.0, 1.0);
      const double grain = std::abs(by - 30) < 1 ? -12 : 0;
      for (int c = 0; c < 3; ++c)
        bgr.at<cv::Vec3b>(y, x)[c] =
            cv::saturate_cast<uchar>(110 + wood * (contrast * (0.6 + 0.2 * c) + grain));
    }
  cv::Mat noise(bgr.size(), CV_16SC3), out;
  cv::theRNG().state = 7;
  cv::randn(noise, 0, 4);
  cv::add(bgr, noise, out, cv::noArray(), CV_8U);
  return out;
}

}  // namespace

TEST_CASE("an edge is followed between two clicks") {
  const double contrast = GENERATE(60, 15);
  const auto line = followEdge(picture(contrast), kBoardFromPicture, {40, wavyEdge(40) + 0.4},
                               {360, wavyEdge(360) - 0.4});
  REQUIRE(line.size() > 50);
  double worst = 0;
  for (const FollowedPoint& p : line) {
    worst = std::max(worst, std::abs(p.at.y - wavyEdge(p.at.x)));
    CHECK(p.sigmaMm > 0);
  }
  CHECK(worst < 0.8);
}

TEST_CASE("where there is no edge the line runs straight and says that it is blind") {
  const cv::Mat blank(240, 800, CV_8UC3, cv::Scalar(120, 130, 140));
  for (const FollowedPoint& p : followEdge(blank, kBoardFromPicture, {40, 50}, {360, 70})) {
    CHECK(p.at.y == Approx(50 + (p.at.x - 40) / 16).margin(0.5));
    CHECK(p.sigmaMm >= 2);
  }
}

TEST_CASE("two clicks on one place have nothing between them") {
  CHECK(followEdge(picture(40), kBoardFromPicture, {40, 60}, {42, 60}).empty());
}
