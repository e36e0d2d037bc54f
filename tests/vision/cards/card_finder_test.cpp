// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/cards/card_finder.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "tests/support/card_scene.h"

using namespace rackside;
using namespace rackside::test;

namespace {

cv::Point2d project(const cv::Matx33d& h, const Pose& pose, Point mm) {
  const double c = std::cos(pose.angleRad), s = std::sin(pose.angleRad);
  const cv::Vec3d p =
      h * cv::Vec3d(pose.origin.x + c * mm.x - s * mm.y, pose.origin.y + s * mm.x + c * mm.y, 1);
  return {p[0] / p[2], p[1] / p[2]};
}

PlaneCamera camera08(double tiltDeg, double rollDeg) {
  PlaneCamera camera;
  camera.size = {1600, 1200};
  camera.focalPx = 1300;
  camera.distanceMm = 0.8 * camera.focalPx;
  camera.tiltRad = tiltDeg * CV_PI / 180;
  camera.tiltTowardsRad = 1;
  camera.rollRad = rollDeg * CV_PI / 180;
  return camera;
}

struct Seen {
  cv::Mat picture;
  cv::Matx33d h;
  std::vector<PlacedCard> placed;
};

Seen render(const PlaneCamera& camera, const std::vector<PlacedCard>& placed, const Spoil& spoil,
            unsigned seed) {
  std::mt19937 random(seed);
  Seen seen{groundPicture(Ground::wood, camera.size, random), camera.imageFromPlane(), placed};
  paintCards(seen.picture, seen.h, placed, spoil);
  spoilPicture(seen.picture, spoil, random);
  return seen;
}

}  // namespace

// Rendered, 0.8 mm a pixel: the sampling of a 3.2 m board that fills a 12-megapixel picture.
TEST_CASE("three cards are numbered and their saddles measured at 0.8 mm a pixel", "[cards]") {
  int saddles = 0;
  double squares = 0, normalised = 0;
  for (int roll : {0, 90, 200, 310}) {
    const std::vector<PlacedCard> placed = {{3, false, {{-350, 60}, 0.1}},
                                            {17, false, {{-100, -80}, 2.9}},
                                            {40, false, {{60, 40}, -0.4}}};
    Spoil spoil;
    spoil.falloff = 0.4;
    const Seen seen = render(camera08(30, roll), placed, spoil, unsigned(roll));
    const FoundMarkers found = findMarkers(seen.picture);
    REQUIRE(found.cards.size() == 3);
    for (size_t i = 0; i < 3; ++i) {
      CHECK(found.cards[i].number == placed[i].number);
      CHECK(found.cards[i].saddles.size() >= 16);
      const CardModel model = cardModel(placed[i].number);
      for (const FoundSaddle& s : found.cards[i].saddles) {
        const cv::Point2d error =
            s.px - project(seen.h, placed[i].planeFromCard, model.saddles[size_t(s.index)]);
        ++saddles;
        squares += error.dot(error);
        normalised += error.dot(error) / (s.sigmaPx * s.sigmaPx);
      }
      const cv::Point2d corner = project(seen.h, placed[i].planeFromCard, {250, 64});
      CHECK(cv::norm(found.cards[i].borderPx[1] - corner) < 0.5);
    }
    CHECK(found.tags.empty());
  }
  CHECK(std::sqrt(squares / (2 * saddles)) < 0.06);
  // The stated sigma is true: the root mean square of error ÷ sigma is 1.
  CHECK(std::sqrt(normalised / (2 * saddles)) == Approx(1).margin(0.2));
}

// Rendered: farther off than meant, and out of focus. Each code alone places its saddles badly;
// the codes of a card together place them well.
TEST_CASE("a small, oblique and blurred card keeps its saddles", "[cards]") {
  PlaneCamera camera = camera08(30, 0);
  camera.distanceMm = 1.05 * camera.focalPx;
  for (const unsigned seed : {1U, 2U, 3U}) {
    Spoil spoil;
    spoil.blurPx = 1.3;
    const Seen seen = render(camera, {{5, false, {{-120, 30}, 0.05}}}, spoil, seed);
    const FoundMarkers found = findMarkers(seen.picture);
    CAPTURE(seed);
    REQUIRE(found.cards.size() == 1);
    CHECK(found.cards[0].number == 5);
    CHECK(found.cards[0].saddles.size() >= 16);
  }
}

// A scan, or a drawing of the card itself: no lens has softened it.
TEST_CASE("a card drawn sharp to the pixel is found like any other", "[cards]") {
  const cv::Mat card = drawCard(cardModel(7), 2);
  cv::Mat picture(card.rows + 120, card.cols + 200, CV_8UC1, cv::Scalar(150));
  card.copyTo(picture(cv::Rect(90, 55, card.cols, card.rows)));
  const FoundMarkers found = findMarkers(picture);
  REQUIRE(found.cards.size() == 1);
  CHECK(found.cards[0].number == 7);
  CHECK(found.cards[0].saddles.size() >= 16);
}

TEST_CASE("a tag is read in the picture of a board", "[cards]") {
  for (int number : {1, 305, 999}) {
    const Pose pose{{-40, 20}, 0.7};
    const Seen seen = render(camera08(20, 15), {{number, true, pose}}, Spoil{}, 5);
    const FoundMarkers found = findMarkers(seen.picture);
    REQUIRE(found.tags.size() == 1);
    CHECK(found.tags[0].number == number);
    CHECK(found.cards.empty());
    const TagModel tag = tagModel(number);
    for (int k = 0; k < 4; ++k)
      CHECK(cv::norm(found.tags[0].cornersPx[k] - project(seen.h, pose, tag.code.corners[k])) <
            0.5);
  }
}

TEST_CASE("a card partly covered or cut off is still numbered", "[cards]") {
  const std::vector<PlacedCard> placed = {{12, false, {{-125, -32}, 0}}};
  Seen seen = render(camera08(10, 0), placed, Spoil{}, 9);
  SECTION("covered from the right, one code left") {
    const cv::Point2d from = project(seen.h, placed[0].planeFromCard, {60, 80});
    const cv::Point2d to = project(seen.h, placed[0].planeFromCard, {260, -20});
    cv::rectangle(seen.picture, cv::Rect(cv::Point(from), cv::Point(to)), cv::Scalar(90),
                  cv::FILLED);
    const FoundMarkers found = findMarkers(seen.picture);
    REQUIRE(found.cards.size() == 1);
    CHECK(found.cards[0].number == 12);
    for (const FoundSaddle& s : found.cards[0].saddles)
      CHECK(cardModel(12).saddles[size_t(s.index)].x < 60);
  }
  SECTION("cut off by the picture's border") {
    const cv::Point2d middle = project(seen.h, placed[0].planeFromCard, {125, 32});
    const FoundMarkers found = findMarkers(seen.picture.colRange(0, int(middle.x)).clone());
    REQUIRE(found.cards.size() == 1);
    CHECK(found.cards[0].number == 12);
    CHECK(found.cards[0].borderPx[1].x > middle.x);
  }
}

TEST_CASE("no card is seen where there is none", "[cards]") {
  std::mt19937 random(3);
  for (Ground ground : {Ground::wood, Ground::floor, Ground::noise, Ground::text})
    for (int i = 0; i < 5; ++i) {
      cv::Mat picture = groundPicture(ground, {800, 600}, random);
      spoilPicture(picture, Spoil{}, random);
      const FoundMarkers found = findMarkers(picture);
      CHECK(found.cards.empty());
      CHECK(found.tags.empty());
    }
}
