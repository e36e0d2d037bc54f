// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/leg_fit.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>
#include <random>

using namespace rackside;

namespace {

constexpr int kSide = 160;
constexpr double kWidth = 10, kLeast = 14;

cv::Mat drawn(const std::vector<Leg>& legs) {
  cv::Mat mask = cv::Mat::zeros(kSide, kSide, CV_8U);
  for (const Leg& leg : legs)
    cv::line(mask, cv::Point(leg.from), cv::Point(leg.to), 255, int(kWidth));
  return mask;
}

cv::Point2d turned(cv::Point2d p, double by) {
  return {p.x * std::cos(by) - p.y * std::sin(by), p.x * std::sin(by) + p.y * std::cos(by)};
}

}  // namespace

TEST_CASE("legs are fitted whichever way they lie") {
  std::mt19937_64 random(5);
  std::uniform_real_distribution<double> anyWay(0, 2 * CV_PI), open(0.7, 1.9), length(32, 60);
  const cv::Point2d middle(80, 80);
  for (int i = 0; i < 40; ++i) {
    const double way = anyWay(random), angle = open(random);
    const cv::Point2d a = turned({length(random), 0}, way),
                      b = turned({length(random), 0}, way + angle);
    CAPTURE(way, angle, cv::norm(a), cv::norm(b));
    const cv::Mat bend = drawn({{middle, middle + a}, {middle, middle + b}});
    const LegFit two = fitBend(bend, kWidth, kLeast);
    CHECK(two.agreement > 0.85);
    CHECK(two.agreement > fitOneLeg(bend, kWidth).agreement + 0.1);
    CHECK(two.agreement > fitCrossing(bend, kWidth, kLeast).agreement);
    const cv::Mat cross = drawn({{middle - a, middle + a}, {middle - b, middle + b}});
    const LegFit four = fitCrossing(cross, kWidth, kLeast);
    CHECK(four.agreement > 0.85);
    CHECK(four.agreement > fitBend(cross, kWidth, kLeast).agreement + 0.1);
    const cv::Mat straight = drawn({{middle - a, middle + a}});
    CHECK(fitOneLeg(straight, kWidth).agreement > 0.85);
    CHECK(fitBend(straight, kWidth, kLeast).agreement < fitOneLeg(straight, kWidth).agreement);
  }
}

TEST_CASE("an empty scrawl has no legs") {
  const cv::Mat nothing = cv::Mat::zeros(50, 50, CV_8U);
  CHECK(fitOneLeg(nothing, kWidth).legs.empty());
  CHECK(fitBend(nothing, kWidth, kLeast).legs.empty());
  CHECK(fitCrossing(nothing, kWidth, kLeast).legs.empty());
}
