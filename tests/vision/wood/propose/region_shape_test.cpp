// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/region_shape.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"

using namespace rackside;

namespace {

Region regionOf(const cv::Mat& picture) {
  Region r;
  r.box = cv::boundingRect(picture);
  r.mask = picture(r.box).clone();
  r.areaPx = cv::countNonZero(picture);
  return r;
}

}  // namespace

TEST_CASE("a round region becomes an ellipse") {
  cv::Mat picture = cv::Mat::zeros(120, 200, CV_8U);
  cv::ellipse(picture, cv::RotatedRect({90, 60}, {80, 30}, 25), 255, cv::FILLED);
  const MarkShape shape = shapeOf(regionOf(picture), RegionKind::deadKnot);
  REQUIRE(std::holds_alternative<Ellipse>(shape));
  const auto& e = std::get<Ellipse>(shape);
  CHECK(e.centre.x == Approx(90).margin(0.5));
  CHECK(e.centre.y == Approx(60).margin(0.5));
  CHECK(e.semiX == Approx(40).margin(1));
  CHECK(e.semiY == Approx(15).margin(1));
  CHECK(e.angleRad == Approx(25 * CV_PI / 180).margin(0.03));
}

TEST_CASE("an irregular region becomes a polygon of its area") {
  cv::Mat picture = cv::Mat::zeros(120, 200, CV_8U);
  cv::rectangle(picture, {30, 30}, {120, 50}, 255, cv::FILLED);
  cv::rectangle(picture, {30, 30}, {45, 95}, 255, cv::FILLED);
  const Region region = regionOf(picture);
  const MarkShape shape = shapeOf(region, RegionKind::stain);
  REQUIRE(std::holds_alternative<Polygon>(shape));
  CHECK(area(polygonsOf(shape)) == Approx(region.areaPx).epsilon(0.03));
  CHECK(signedArea(std::get<Polygon>(shape)) > 0);
}

TEST_CASE("a crack becomes a line that follows its middle to both ends") {
  cv::Mat picture = cv::Mat::zeros(160, 300, CV_8U);
  const auto bow = [](int x) { return 80 + 25 * std::sin(x / 90.0); };
  for (int x = 40; x < 260; ++x)
    for (int d = -1; d <= 1; ++d) picture.at<uint8_t>(cvRound(bow(x)) + d, x) = 255;
  const MarkShape shape = shapeOf(regionOf(picture), RegionKind::crack);
  REQUIRE(std::holds_alternative<Stroke>(shape));
  const auto& line = std::get<Stroke>(shape);
  for (const Point p : line.points) CHECK(p.y == Approx(bow(int(p.x))).margin(1.5));
  const double from = std::min(line.points.front().x, line.points.back().x),
               to = std::max(line.points.front().x, line.points.back().x);
  CHECK(from == Approx(40).margin(2));
  CHECK(to == Approx(259).margin(2));
  CHECK(line.widthMm == Approx(3).margin(0.5));
}

TEST_CASE("a shape carried to the board keeps its place and turns with it") {
  // As a face picture lies: half a millimetre a pixel, y turned over.
  const std::array<double, 6> m{0.5, 0, 10, 0, -0.5, 100};
  const auto ellipse = std::get<Ellipse>(carried(Ellipse{{20, 40}, 10, 4, 0.3}, m));
  CHECK(ellipse.centre == Point{20, 80});
  CHECK(ellipse.semiX == Approx(5));
  CHECK(ellipse.angleRad == Approx(-0.3));
  const auto polygon = std::get<Polygon>(carried(Polygon{{0, 0}, {40, 0}, {40, 20}}, m));
  CHECK(signedArea(polygon) == Approx(100));
  const auto stroke = std::get<Stroke>(carried(Stroke{{{0, 0}, {40, 0}}, 3}, m));
  CHECK(stroke.widthMm == Approx(1.5));
  CHECK(stroke.points[1] == Point{30, 100});
}
