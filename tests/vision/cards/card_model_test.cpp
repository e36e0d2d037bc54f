// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/cards/card_model.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <set>

using namespace rackside;

namespace {

int bitsApart(const cv::Mat& a, const cv::Mat& b) {
  return cv::countNonZero(a != b);
}

// Least distance of two codes over the four turns; of a code and itself over the three real turns.
int leastDistance(const std::vector<cv::Mat>& codes) {
  int least = 1000;
  for (size_t i = 0; i < codes.size(); ++i) {
    cv::Mat turned = codes[i].clone();
    for (int turn = 0; turn < 4; ++turn) {
      for (size_t j = turn == 0 ? i + 1 : i; j < codes.size(); ++j)
        least = std::min(least, bitsApart(turned, codes[j]));
      cv::rotate(turned.clone(), turned, cv::ROTATE_90_CLOCKWISE);
    }
  }
  return least;
}

bool touch(const Rect& a, const Rect& b) {
  const double gap = 1e-9;
  return a.x0 < b.x1 - gap && b.x0 < a.x1 - gap && a.y0 < b.y1 - gap && b.y0 < a.y1 - gap;
}

}  // namespace

TEST_CASE("a card holds its fields, codes and print inside its size", "[cards]") {
  for (int number : {1, 7, kLargestCardNumber}) {
    const CardModel card = cardModel(number);
    CHECK(card.lengthMm == Approx(250));
    CHECK(card.heightMm == Approx(64));
    CHECK(card.saddles.size() == 20);
    CHECK(card.codes.size() == 5);
    CHECK(card.rowsAt.size() % 2 == 0);  // an odd number of rows
    std::vector<Rect> all = card.ink;
    for (const CheckBar& bar : card.bars)
      for (const Rect& r : bar.ink()) all.push_back(r);
    for (const PrintedText& text : card.texts) all.push_back(text.box);
    for (size_t i = 0; i < all.size(); ++i) {
      CHECK(all[i].x0 >= 1);
      CHECK(all[i].y0 >= 1);
      CHECK(all[i].x1 <= card.lengthMm - 1);
      CHECK(all[i].y1 <= card.heightMm - 1);
      for (size_t j = i + 1; j < all.size(); ++j) CHECK_FALSE(touch(all[i], all[j]));
    }
  }
}

TEST_CASE("codes are at least 20 mm with modules of at least 3.3 mm", "[cards]") {
  const CardModel card = cardModel(3);
  for (const PrintedCode& code : card.codes) {
    CHECK(norm(code.corners[1] - code.corners[0]) >= 20);
    CHECK(norm(code.corners[1] - code.corners[0]) / (kCardCodeBits + 2) >= 3.3);
    // Clockwise with y up: the turn from the first to the second side is to the right.
    CHECK(cross(code.corners[1] - code.corners[0], code.corners[2] - code.corners[1]) < 0);
  }
}

TEST_CASE("no two cards share a code and codes differ enough", "[cards]") {
  std::set<int> ids;
  for (int number = 1; number <= kLargestCardNumber; ++number)
    for (const PrintedCode& code : cardModel(number).codes) {
      CHECK(ids.insert(code.id).second);
      CHECK(cardOfCode(code.id).number == number);
    }
  std::vector<cv::Mat> codes;
  for (int id : ids) codes.push_back(cardCodeModules(id));
  CHECK(leastDistance(codes) >= 3);
}

TEST_CASE("tag codes differ by at least eight modules", "[cards]") {
  std::vector<cv::Mat> codes;
  for (int number = 1; number <= kLargestTagNumber; ++number)
    codes.push_back(tagCodeModules(tagModel(number).code.id));
  CHECK(leastDistance(codes) >= 8);
}

TEST_CASE("a drawn card has the ink of its model", "[cards]") {
  const CardModel card = cardModel(5);
  const double pxPerMm = 3.7;  // not a whole number of pixels a field
  const cv::Mat picture = drawCard(card, pxPerMm);
  CHECK(picture.cols == cvRound(250 * pxPerMm));
  CHECK(picture.rows == cvRound(64 * pxPerMm));
  double inkMm2 = 0;
  for (const Rect& r : card.ink) inkMm2 += r.width() * r.height();
  // Between the rows of bars and text, which are not in `ink`.
  const int top = static_cast<int>(std::ceil((64 - 57.2) * pxPerMm));
  const int bottom = static_cast<int>((64 - 6.5) * pxPerMm);
  cv::Mat inner = picture.rowRange(top, bottom).clone();
  inner.colRange(0, static_cast<int>(16 * pxPerMm)).rowRange(0, 24).setTo(255);
  inner.colRange(static_cast<int>(234 * pxPerMm), inner.cols).rowRange(0, 24).setTo(255);
  const double drawnMm2 = cv::sum(255 - inner)[0] / 255 / (pxPerMm * pxPerMm);
  CHECK(drawnMm2 == Approx(inkMm2).epsilon(0.003));
}

TEST_CASE("card and tag numbers outside their range are refused", "[cards]") {
  CHECK_THROWS_AS(cardModel(0), std::logic_error);
  CHECK_THROWS_AS(cardModel(kLargestCardNumber + 1), std::logic_error);
  CHECK_THROWS_AS(tagModel(1000), std::logic_error);
}
