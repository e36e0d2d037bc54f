// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/pit_rim.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/wood/mark.h"
#include "tests/support/pit_faces.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

constexpr double kMiddle = 60;  // of the picture, pixels

// An ellipse of `dark` times the wood's light with an edge as soft as a blur of `sigmaPx` makes it.
cv::Mat ellipsePicture(double semiX, double semiY, double dark, double sigmaPx) {
  cv::Mat3b picture(121, 121);
  for (int y = 0; y < picture.rows; ++y)
    for (int x = 0; x < picture.cols; ++x) {
      const double q = std::hypot((x - kMiddle) / semiX, (y - kMiddle) / semiY);
      const double outPx = (q - 1) * std::sqrt(semiX * semiY);
      const double share = 0.5 * std::erfc(-outPx / (sigmaPx * std::sqrt(2.0)));
      const double light = 0.4 * (dark + (1 - dark) * share);
      picture(y, x) = cv::Vec3b::all(static_cast<uchar>(255 * std::pow(light, 1 / 2.2)));
    }
  return picture;
}

Polygon ringed(double times, double semiX, double semiY) {
  return polygonsOf(Ellipse{{kMiddle, kMiddle}, times * semiX, times * semiY, 0}).front();
}

}  // namespace

TEST_CASE("a ring drawn too wide is drawn in to the rim of the pit, however soft") {
  for (const double sigma : {0.5, 1.0, 1.6})
    for (const double semiY : {8.0, 20.0}) {
      CAPTURE(sigma, semiY);
      const cv::Mat picture = ellipsePicture(20, semiY, 0.03, sigma);
      const auto rim = pitRim(picture, 0.5, ringed(1.4, 20, semiY));
      REQUIRE(rim);
      CHECK(area({*rim}) == Approx(CV_PI * 20 * semiY).epsilon(0.03));
    }
}

TEST_CASE("what is not dark as a hollow is left as it was ringed") {
  CHECK_FALSE(pitRim(ellipsePicture(20, 12, 0.6, 1), 0.5, ringed(1.4, 20, 12)));
  CHECK_FALSE(pitRim(ellipsePicture(20, 12, 1, 1), 0.5, ringed(1.4, 20, 12)));
}

TEST_CASE("a ring far wider than the pit, or off the picture, is left alone") {
  const cv::Mat picture = ellipsePicture(10, 10, 0.03, 1);
  CHECK_FALSE(pitRim(picture, 0.5, ringed(3, 10, 10)));
  CHECK_FALSE(pitRim(picture, 0.5, rectangle({400, 400, 430, 430})));
}

TEST_CASE("rendered pits come to within a tenth of their volume when the depth is true") {
  int measured = 0;
  for (const uint32_t seed : {71U, 74U}) {
    double trueSum = 0, sum = 0;
    for (const MeasuredPit& pit : measuredPits(renderPitFace(seed, 2))) {
      ++measured;
      trueSum += pit.trueMm3, sum += pit.mm3;
    }
    CAPTURE(seed);
    CHECK(sum == Approx(trueSum).epsilon(0.1));
  }
  CHECK(measured >= 3);
}
