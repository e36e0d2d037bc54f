// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/cards/plain_reference.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "tests/support/card_scene.h"
#include "vision/lens/exif_prior.h"

using namespace rackside;
using namespace rackside::test;

namespace {

struct Scene {
  cv::Mat picture;
  std::vector<cv::Point2d> corners;  // true places of Target::points
  Lens lens;
};

// A rectangle with round corners on rendered wood: drawn at four samples a pixel through the
// camera's homography.
Scene sceneOf(const Target& target, double cornerRadiusMm, int grey, double tiltDeg,
              unsigned seed) {
  std::mt19937 random(seed);
  PlaneCamera camera;
  camera.size = {1600, 1200};
  camera.focalPx = 1300;
  camera.distanceMm = 0.8 * camera.focalPx;
  camera.tiltRad = tiltDeg * CV_PI / 180;
  camera.tiltTowardsRad = 0.7;
  camera.rollRad = 0.4;
  const cv::Matx33d h = camera.imageFromPlane();
  Scene scene{groundPicture(Ground::wood, camera.size, random), {}, {}};
  const auto at = [&](Point mm) {
    const cv::Vec3d p = h * cv::Vec3d(mm.x - 60, mm.y - 40, 1);
    return cv::Point2d(p[0] / p[2], p[1] / p[2]);
  };
  double x1 = 0, y1 = 0;
  for (const Point& p : target.points) {
    x1 = std::max(x1, p.x);
    y1 = std::max(y1, p.y);
    scene.corners.push_back(at(p));
  }
  std::vector<cv::Point> outline;  // in 1/16 of a quarter pixel
  const double r = cornerRadiusMm;
  const Point centres[4] = {{x1 - r, y1 - r}, {r, y1 - r}, {r, r}, {x1 - r, r}};
  for (int corner = 0; corner < 4; ++corner)
    for (int step = 0; step <= 8; ++step) {
      const double a = (corner + step / 8.0) * CV_PI / 2;
      const cv::Point2d p = at(centres[corner] + Point{r * std::cos(a), r * std::sin(a)});
      outline.emplace_back(cvRound((4 * p.x + 1.5) * 16), cvRound((4 * p.y + 1.5) * 16));
    }
  cv::Mat fine(4 * camera.size.height, 4 * camera.size.width, CV_8U, cv::Scalar(0)), cover;
  cv::fillPoly(fine, std::vector<std::vector<cv::Point>>{outline}, cv::Scalar(255), cv::LINE_8, 4);
  cv::resize(fine, cover, camera.size, 0, 0, cv::INTER_AREA);
  for (int row = 0; row < cover.rows; ++row)
    for (int c = 0; c < cover.cols; ++c) {
      const double share = cover.at<uchar>(row, c) / 255.0;
      uchar& pixel = scene.picture.at<uchar>(row, c);
      pixel = cv::saturate_cast<uchar>((1 - share) * pixel + share * grey);
    }
  spoilPicture(scene.picture, Spoil{}, random);
  Exif exif;
  exif.focal35Mm = 1300.0 / std::hypot(1600, 1200) * 43.2666 * 1.02;  // EXIF 2 % off
  scene.lens = lensPrior(exif, camera.size);
  return scene;
}

// Two of the four ways to lay a bare rectangle look alike.
double worstCorner(const SeenTarget& seen, const std::vector<cv::Point2d>& truth) {
  double worst[2] = {0, 0};
  for (size_t i = 0; i < 4; ++i)
    for (size_t turned = 0; turned < 2; ++turned)
      worst[turned] =
          std::max(worst[turned], cv::norm(seen.points[i].px - truth[(i + 2 * turned) % 4]));
  return std::min(worst[0], worst[1]);
}

}  // namespace

// Rendered. Sizes: ISO/IEC 7810 ID-1, ISO 216, US Letter, as vision/measure/target.h gives them.
TEST_CASE("a bank card or a sheet is found by itself", "[cards]") {
  struct Case {
    PlainReference what;
    Target target;
    double radiusMm;
    int grey;
  };
  for (const Case& c : {Case{PlainReference::bankCard, bankCardTarget(), 3.18, 235},
                        Case{PlainReference::bankCard, bankCardTarget(), 3.18, 25},
                        Case{PlainReference::a4, a4Target(), 0.01, 240},
                        Case{PlainReference::letter, letterTarget(), 0.01, 240}})
    for (double tilt : {0.0, 25.0}) {
      INFO(c.target.name << " grey " << c.grey << " tilt " << tilt);
      const Scene scene = sceneOf(c.target, c.radiusMm, c.grey, tilt, 4);
      const auto seen = findPlainReference(scene.picture, c.what, scene.lens);
      INFO((seen ? "" : seen.error().message));
      REQUIRE(seen.ok());
      CHECK(seen->points.size() == 4);
      CHECK(worstCorner(*seen, scene.corners) < 0.75);  // 1.5 of the stated sigma of 0.5 px
    }
}

TEST_CASE("a sheet is not taken for another and a bare board for none", "[cards]") {
  const Scene scene = sceneOf(a4Target(), 0.01, 240, 20, 6);
  CHECK_FALSE(findPlainReference(scene.picture, PlainReference::letter, scene.lens).ok());
  std::mt19937 random(2);
  cv::Mat bare = groundPicture(Ground::wood, {1600, 1200}, random);
  spoilPicture(bare, Spoil{}, random);
  const auto none = findPlainReference(bare, PlainReference::bankCard, scene.lens);
  REQUIRE_FALSE(none.ok());
  CHECK(none.error().message.find("four corners") != std::string::npos);
}

TEST_CASE("four corners pointed at are moved on to the true ones", "[cards]") {
  const Scene scene = sceneOf(bankCardTarget(), 3.18, 235, 20, 8);
  std::array<cv::Point2d, 4> rough;
  const double off[4][2] = {{2, -1}, {-2, 2}, {1, 2}, {-1, -2}};
  for (size_t i = 0; i < 4; ++i)
    rough[i] = scene.corners[(i + 1) % 4] + cv::Point2d(off[i][0], off[i][1]);
  for (bool backwards : {false, true}) {
    if (backwards) std::reverse(rough.begin(), rough.end());
    const auto seen =
        plainReferenceAt(scene.picture, PlainReference::bankCard, scene.lens, rough, 6);
    REQUIRE(seen.ok());
    CHECK(worstCorner(*seen, scene.corners) < 0.75);
  }
  std::swap(rough[0], rough[1]);
  CHECK_FALSE(plainReferenceAt(scene.picture, PlainReference::bankCard, scene.lens, rough, 6).ok());
}
