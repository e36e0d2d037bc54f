// SPDX-License-Identifier: GPL-3.0-or-later
// A board measured without a printer: a rendered photograph whose cards are painted over and in
// which a bank card is drawn instead, by the camera that the cards gave.
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/test_data.h"
#include "vision/face/face_views.h"
#include "vision/scan/scan.h"
#include "vision/scan/sights.h"

using namespace rackside;

namespace {

constexpr int kFine = 4;  // samples a pixel each way

Photo samplePhoto() {
  auto photo = readPhoto(std::string(RACKSIDE_SOURCE_DIR) + "/samples/photos/board-03.jpg");
  REQUIRE(photo.ok());
  return std::move(photo.value());
}

double trueLength() {
  std::ifstream in(std::string(RACKSIDE_SOURCE_DIR) + "/samples/truth/board-03.truth.json");
  return nlohmann::json::parse(in)["board"]["faces"]["A"]["length_mm"].get<double>();
}

// Fills the plane polygon, seen by the camera, with one colour, smooth at its border.
void paint(cv::Mat& picture, const Adjustment& camera, const Polygon& plane, cv::Scalar colour) {
  std::vector<cv::Point> fine;
  for (const Point& p : plane) {
    const cv::Point2d px = camera.imageFromPlane(0, p);
    fine.emplace_back(cvRound(kFine * (px.x + 0.5) - 0.5), cvRound(kFine * (px.y + 0.5) - 0.5));
  }
  const cv::Rect box = cv::boundingRect(fine);
  const cv::Rect area((box.x / kFine) - 1, (box.y / kFine) - 1, box.width / kFine + 3,
                      box.height / kFine + 3);
  for (cv::Point& p : fine) p -= kFine * area.tl();
  cv::Mat cover(area.height * kFine, area.width * kFine, CV_8U, cv::Scalar(0)), share;
  cv::fillPoly(cover, std::vector<std::vector<cv::Point>>{fine}, cv::Scalar(255));
  cv::resize(cover, share, area.size(), 0, 0, cv::INTER_AREA);
  for (int row = 0; row < share.rows; ++row)
    for (int c = 0; c < share.cols; ++c)
      for (int k = 0; k < 3; ++k) {
        uchar& v = picture.at<cv::Vec3b>(area.y + row, area.x + c)[k];
        const double a = share.at<uchar>(row, c) / 255.0;
        v = cv::saturate_cast<uchar>((1 - a) * v + a * colour[k]);
      }
}

// ISO/IEC 7810 ID-1: 85.60 × 53.98 mm, corners of 3.18 mm radius.
Polygon bankCardAt(Point middle, double angle) {
  Polygon outline;
  const double x = 85.60 / 2 - 3.18, y = 53.98 / 2 - 3.18;
  const Point centres[4] = {{x, y}, {-x, y}, {-x, -y}, {x, -y}};
  for (int corner = 0; corner < 4; ++corner)
    for (int step = 0; step <= 8; ++step) {
      const double a = (corner + step / 8.0) * CV_PI / 2;
      outline.push_back(centres[corner] + Point{3.18 * std::cos(a), 3.18 * std::sin(a)});
    }
  return rackside::apply(Pose{middle, angle}, outline);
}

}  // namespace

TEST_CASE("a bank card stands in for printed cards, with a larger ±") {
  Photo photo = samplePhoto();
  ScanOptions options;
  options.name = "3";
  options.thicknessMm = 27;
  RunControl control;
  const auto sights = findSights({photo}, options);
  REQUIRE(sights.ok());
  AdjustmentOptions how;
  const auto camera = adjust(sights->sights, how);
  REQUIRE(camera.ok());
  const auto withCards = scanFace({photo}, options, control);
  REQUIRE(withCards.ok());

  std::vector<PlacedCard> cards;
  for (const CardFit& card : (*camera)->cards())
    cards.push_back(placedCard(card.number, *(*camera)->planeFromCard(card.number), 0));
  REQUIRE(cards.size() >= 2);
  for (const PlacedCard& card : cards) {
    // The colour of the wood just past the card's end.
    const Point past =
        card.middle + 160.0 * Point{std::cos(card.angleRad), std::sin(card.angleRad)};
    const cv::Point2d px = (*camera)->imageFromPlane(0, past);
    const cv::Scalar wood = cv::mean(photo.bgr(cv::Rect(int(px.x) - 15, int(px.y) - 5, 30, 10)));
    Polygon wide;
    for (const Point& p : card.outline) wide.push_back(card.middle + 1.03 * (p - card.middle));
    paint(photo.bgr, **camera, wide, wood);
  }
  const Point middle = 0.5 * (cards[0].middle + cards[1].middle);
  paint(photo.bgr, **camera, bankCardAt(middle, cards[0].angleRad + 0.3), {225, 228, 230});

  CHECK_FALSE(scanFace({photo}, options, control).ok());
  options.reference = PlainReference::bankCard;
  // Corners as pointed at, a few pixels off.
  ReferenceCorners corners;
  const Polygon square =
      rackside::apply(Pose{middle, cards[0].angleRad + 0.3},
                      Polygon{{-42.8, -26.99}, {42.8, -26.99}, {42.8, 26.99}, {-42.8, 26.99}});
  for (size_t i = 0; i < 4; ++i)
    corners.px[i] = (*camera)->imageFromPlane(0, square[i]) + cv::Point2d(3, -4);
  options.referenceCorners = {corners};
  const auto scan = scanFace({photo}, options, control);
  if (!scan) FAIL(scan.error().message);
  REQUIRE(scan->cards.size() == 1);
  CHECK(scan->cards[0].name == "bank card");
  const Measured length = scan->board.lengthMm;
  CAPTURE(length.value, length.u95Total, trueLength());
  CHECK(std::abs(length.value - trueLength()) <= length.u95Total);
  CHECK(length.u95 > 2 * withCards->board.lengthMm.u95);
}

TEST_CASE("a taped distance and a measured bow enter the measurement") {
  const Photo photo = samplePhoto();
  ScanOptions options;
  options.name = "3";
  options.thicknessMm = 27;
  RunControl control;
  const auto plain = scanFace({photo}, options, control);
  REQUIRE(plain.ok());
  const Measured before = plain->board.lengthMm;

  const auto sights = findSights({photo}, options);
  REQUIRE(sights.ok());
  const auto camera = adjust(sights->sights, {});
  REQUIRE(camera.ok());
  const int a = (*camera)->cards().front().number, b = (*camera)->cards().back().number;
  const auto middleOf = [&](int number) {
    return placedCard(number, *(*camera)->planeFromCard(number), 0).middle;
  };
  ScanOptions taped = options;
  taped.taped = {{a, b, norm(middleOf(a) - middleOf(b)), 0.5}};
  const auto withTape = scanFace({photo}, taped, control);
  REQUIRE(withTape.ok());
  CHECK(withTape->board.lengthMm.u95Total < 0.7 * before.u95Total);
  CHECK(withTape->board.lengthMm.value == Approx(before.value).margin(1));

  // How a bow works on a length is checked with the adjustment; here, that it reaches it. (The
  // board is flat, and with cards near both ends little changes.)
  ScanOptions bowed = options;
  bowed.bowMm = 8;
  const auto withBow = scanFace({photo}, bowed, control);
  REQUIRE(withBow.ok());
  CHECK(std::abs(withBow->board.lengthMm.value - before.value) > 0.01);
  CHECK(std::abs(withBow->board.lengthMm.value - before.value) < 8);
  bowed.bowMm = 800;
  CHECK_FALSE(scanFace({photo}, bowed, control).ok());
}

TEST_CASE("a photograph given twice counts once and is told") {
  const Photo photo = samplePhoto();
  const auto sights = findSights({photo, photo}, {});
  REQUIRE(sights.ok());
  CHECK(sights->sights.size() == 1);
  CHECK(std::any_of(sights->warnings.begin(), sights->warnings.end(), [](const std::string& w) {
    return w.find("the same photograph") != std::string::npos;
  }));
}
