// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/curve_border.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace rackside;

namespace {

constexpr int kRows = 240, kColumns = 300;

CurveOptions options() {
  CurveOptions o;
  o.mostTilt = 30, o.mostBend = 10, o.bendCost = 0.005, o.mostAColumn = 3, o.samePlace = 3;
  return o;
}

cv::Mat noise(uint32_t seed) {
  cv::Mat cost(kRows, kColumns, CV_32F);
  cv::RNG random(seed);
  random.fill(cost, cv::RNG::NORMAL, 0, 0.4);
  return cost;
}

void drawCurve(cv::Mat& cost, const CurveBorder& curve, float gain, double share, uint32_t seed) {
  std::mt19937 random(seed);
  std::bernoulli_distribution drawn(share);
  for (int x = 0; x < kColumns; ++x)
    if (drawn(random)) cost.at<float>(int(std::lround(curve.row(x, kColumns))), x) -= gain;
}

double farthestApart(const CurveBorder& p, const CurveBorder& q) {
  double most = 0;
  for (int x = 0; x < kColumns; ++x)
    most = std::max(most, std::abs(p.row(x, kColumns) - q.row(x, kColumns)));
  return most;
}

}  // namespace

TEST_CASE("a curve is found though a third of its columns show nothing") {
  const auto seed = uint32_t(GENERATE(range(1, 13)));
  std::mt19937 random(seed);
  const auto between = [&](double a, double b) {
    return std::uniform_real_distribution<double>(a, b)(random);
  };
  const CurveBorder truth{between(60, 180), between(-25, 25), between(-8, 8), 0, 0};
  cv::Mat cost = noise(seed);
  drawCurve(cost, truth, 3, 2.0 / 3, seed);
  CHECK(farthestApart(cheapestCurve(cost, options()), truth) < 1.5);
}

TEST_CASE("a wild stretch of a border does not bend its curve") {
  const CurveBorder truth{100, 5, 3, 0, 0};
  cv::Mat cost = noise(5);
  drawCurve(cost, truth, 3, 1, 5);
  for (int x = 100; x < 150; ++x) cost.at<float>(30, x) -= 20;  // far dearer elsewhere
  CHECK(farthestApart(cheapestCurve(cost, options()), truth) < 1.5);
}

TEST_CASE("the rival tells whether another curve does as well") {
  const CurveBorder truth{100, 5, 3, 0, 0}, other{140, -6, 0, 0, 0};
  cv::Mat alone = noise(7);
  drawCurve(alone, truth, 3, 1, 7);
  cv::Mat two = alone.clone();
  drawCurve(two, other, 2.7F, 1, 8);
  const CurveBorder clear = cheapestCurve(alone, options()),
                    doubtful = cheapestCurve(two, options());
  CHECK(clear.rival - clear.dearness > 1);
  CHECK(doubtful.rival - doubtful.dearness < 0.6);
  CHECK(farthestApart(clear, truth) < 1.5);
}

TEST_CASE("leaning costs more with distance, up to a limit") {
  const CurveBorder curve{20, 4, 0, 0, 0};
  const cv::Mat lean = leaningTo(curve, {50, 60}, 0.1, 1.5);
  CHECK(lean.at<float>(16, 0) == Approx(0));
  CHECK(lean.at<float>(18, 0) == Approx(0.4));
  CHECK(lean.at<float>(50, 0) == Approx(1.5));
  CHECK(lean.at<float>(24, 49) == Approx(0));
}
