// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/border_path.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace rackside;

namespace {

// A cheap wavy path over dear ground, and a straight rival of the given cost.
cv::Mat costs(float path, float rival) {
  cv::Mat cost(80, 200, CV_32F, cv::Scalar(0));
  for (int x = 0; x < cost.cols; ++x) {
    cost.at<float>(60, x) = rival;
    cost.at<float>(20 + int(std::lround(5 * std::sin(x / 20.0))), x) = path;
  }
  return cost;
}

}  // namespace

TEST_CASE("the cheapest border is found from end to end") {
  const BorderPath path = cheapestBorder(costs(-3, -2), {});
  REQUIRE(path.row.size() == 200);
  for (int x = 0; x < 200; ++x)
    CHECK(path.row[size_t(x)] == 20 + int(std::lround(5 * std::sin(x / 20.0))));
}

TEST_CASE("the margin tells how near a rival comes") {
  BorderPathOptions options;
  options.window = 25;
  const double near = cheapestBorder(costs(-3, -2.8f), options).margin[100];
  const double far = cheapestBorder(costs(-3, -1), options).margin[100];
  CHECK(near == Approx(25 * 0.2).margin(0.01));
  CHECK(far == Approx(25 * 2).margin(0.01));
}

TEST_CASE("a step too long for one column is not taken") {
  cv::Mat cost(60, 50, CV_32F, cv::Scalar(0));
  for (int x = 0; x < 50; ++x) cost.at<float>(x < 25 ? 10 : 50, x) = -2;
  BorderPathOptions options;
  options.largestStep = 3;
  options.stepCost = 0.01;
  const BorderPath path = cheapestBorder(cost, options);
  for (size_t x = 1; x < 50; ++x) CHECK(std::abs(path.row[x] - path.row[x - 1]) <= 3);
}
