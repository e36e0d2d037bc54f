// SPDX-License-Identifier: GPL-3.0-or-later
// The rendered scenes against outside judges: corners found by OpenCV's own refinement in the
// rendered picture, EXIF read by libexif. What is checked here is the tests' own yardstick.
#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/core/support/temporary_folder.h"
#include "tests/support/board_frame.h"
#include "tests/support/scene_camera.h"
#include "tests/support/scene_pose.h"
#include "tests/support/scene_render.h"
#include "vision/cards/card_model.h"
#include "vision/photo/photo.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

// Small and close, so that it renders in a few seconds and squares are still several pixels.
SceneSpec smallScene(const std::string& face) {
  SceneSpec s;
  s.name = "truth-check-" + face;
  s.board.shape.lengthMm = 900;
  s.board.shape.widthMm = 180;
  s.board.shape.bowMm = 4;
  s.face = face;
  s.place = "battens";
  s.cards = {{1, "board", 180, 95, 2}, {2, "board", 715, 85, 176}, {3, "bench", 450, -80, 0}};
  s.cardThicknessMm = 2;
  CameraSpec c;
  c.widthPx = 1600;
  c.heightPx = 1200;
  c.focalPx = 1250;
  c.tiltDeg = 24;
  c.azimuthDeg = -50;
  c.rollDeg = 3;
  c.cxOff = 9;
  c.cyOff = -7;
  c.k1 = 0.02;
  c.k2 = -0.004;
  c.orientation = 6;
  c.noise = 0.004;
  s.cameras = {c};
  return s;
}

double refinedRmsPx(const cv::Mat& grey, const nlohmann::json& saddles) {
  std::vector<cv::Point2f> predicted;
  for (const auto& s : saddles) predicted.emplace_back(s[0].get<float>(), s[1].get<float>());
  std::vector<cv::Point2f> found = predicted;
  cv::cornerSubPix(grey, found, {4, 4}, {-1, -1}, cv::TermCriteria(3, 60, 1e-4));
  double sum = 0;
  for (size_t i = 0; i < found.size(); ++i) {
    const cv::Point2f d = found[i] - predicted[i];
    sum += d.dot(d);
  }
  return std::sqrt(sum / (2.0 * static_cast<double>(found.size())));
}

}  // namespace

TEST_CASE("predicted card corners lie where the rendered picture shows them") {
  const std::string face = GENERATE("A", "B");
  const tests::TemporaryFolder out;
  const auto scene = renderScene(smallScene(face), out.path());
  REQUIRE(scene.ok());
  const cv::Mat grey =
      cv::imread(scene->photos[0].string(), cv::IMREAD_GRAYSCALE | cv::IMREAD_IGNORE_ORIENTATION);
  REQUIRE(grey.cols == 1600);
  for (const auto& card : scene->truth["photos"][0]["cards"]) {
    CAPTURE(face, card["number"]);
    // Noise and JPEG leave corner refinement a few hundredths of a pixel at this size.
    CHECK(refinedRmsPx(grey, card["saddles_px"]) < 0.1);
  }
}

TEST_CASE("the photograph tells its camera") {
  const tests::TemporaryFolder out;
  const auto scene = renderScene(smallScene("A"), out.path());
  REQUIRE(scene.ok());
  const auto photo = readPhoto(scene->photos[0]);
  REQUIRE(photo.ok());
  CHECK(photo->exif.make == "Lumenweave");
  CHECK(photo->exif.model == "L2 phone");
  CHECK(photo->exif.orientation == 6);
  REQUIRE(photo->exif.focal35Mm.has_value());
  // 35 mm equivalent by the diagonal (CIPA DCG-001): 1250 px of a diagonal of 2000 px.
  CHECK(*photo->exif.focal35Mm == Approx(43.27 * 1250 / 2000).margin(0.51));
  CHECK(photo->bgr.cols == 1600);
}

TEST_CASE("distortion and its inverse agree, and a hand-reckoned point projects right") {
  CameraSpec c;
  c.k1 = 0.02;
  c.k2 = -0.005;
  for (int i = 0; i < 18; ++i) {
    const double r = 0.05 * i;
    const cv::Point2d uv(0.8 * r, -0.6 * r);
    CHECK(cv::norm(undistort(c, distort(c, uv)) - uv) < 1e-12);
  }
  // Straight above the middle: one millimetre is focalPx / height px, y up is y down in the raster.
  BoardShape b;
  b.lengthMm = 1000;
  b.widthMm = 200;
  b.thicknessMm = 30;
  CameraSpec flat;
  flat.fit = 0.5;
  const CameraPose pose = solveCamera(flat, b);
  const double height = pose.centreSeen()[2] - 30;
  CHECK(height == Approx(flat.focalPx * 1000 / (0.5 * flat.widthPx)).epsilon(1e-6));
  const cv::Point2d p = projectPoint(flat, pose, {600, 150, 30});
  CHECK(p.x == Approx(1999.5 + flat.focalPx * 100 / height).margin(1e-3));
  CHECK(p.y == Approx(1499.5 - flat.focalPx * 50 / height).margin(1e-3));
}

TEST_CASE("the board frame of a turned rectangle is the rectangle") {
  const Polygon rectangle = {{0, 0}, {2000, 0}, {2000, 150}, {0, 150}};
  const Pose turn{{40, -30}, 0.07};
  const Polygon turned = rackside::apply(turn, rectangle);
  const Polygon back = rackside::apply(boardFrameOf(turned), turned);
  for (size_t i = 0; i < 4; ++i) {
    CHECK(back[i].x == Approx(rectangle[i].x).margin(0.02));
    CHECK(back[i].y == Approx(rectangle[i].y).margin(0.02));
  }
  CHECK(*chordAt(back, 1000) == Approx(150).margin(1e-3));
}
