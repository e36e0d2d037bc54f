// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/scrawls.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include "vision/wood/crayon/lines.h"

using namespace rackside;

namespace {

// A board with the bench round it.
const cv::Mat kWood = [] {
  cv::Mat wood = cv::Mat::zeros(200, 900, CV_8U);
  wood(cv::Rect(10, 10, 880, 180)) = 255;
  return wood;
}();

cv::Mat bare() {
  return cv::Mat::zeros(kWood.size(), CV_32F);
}

std::vector<CrayonStroke> linesOn(const cv::Mat& share) {
  std::vector<Stroke> pieces;
  for (const Scrawl& s : scrawlsOf(share, kWood, 1))
    if (auto piece = linePieceOf(s)) pieces.push_back(*piece);
  return linesOf(pieces, 1);
}

}  // namespace

TEST_CASE("a patch broader than a stick draws is no scrawl, nor is a faint one") {
  cv::Mat share = bare();
  cv::circle(share, {200, 100}, 25, 0.9, cv::FILLED);
  cv::line(share, {400, 100}, {700, 100}, 0.35, 10);
  CHECK(scrawlsOf(share, kWood, 1).empty());
  cv::line(share, {400, 60}, {460, 60}, 0.9, 10);
  CHECK(scrawlsOf(share, kWood, 1).size() == 1);
}

TEST_CASE("what runs along the border of the wood is no scrawl") {
  cv::Mat share = bare();
  cv::line(share, {100, 14}, {800, 14}, 0.9, 9);
  CHECK(scrawlsOf(share, kWood, 1).empty());
}

TEST_CASE("pieces of a line that skipped are one line") {
  cv::Mat share = bare();
  cv::line(share, {100, 50}, {180, 52}, 0.9, 10);
  cv::line(share, {210, 52}, {300, 55}, 0.9, 10);
  cv::line(share, {330, 56}, {400, 57}, 0.9, 10);
  const auto lines = linesOn(share);
  REQUIRE(lines.size() == 1);
  const auto& line = std::get<Stroke>(lines[0].shape);
  CHECK(line.points.front().x == Approx(100).margin(8));
  CHECK(line.points.back().x == Approx(400).margin(8));
  CHECK(line.widthMm == Approx(10).margin(3));
}

TEST_CASE("pieces that do not run on into one another are no line") {
  cv::Mat share = bare();
  cv::line(share, {100, 50}, {180, 50}, 0.9, 10);
  cv::line(share, {210, 120}, {290, 120}, 0.9, 10);
  cv::line(share, {420, 50}, {500, 50}, 0.9, 10);
  CHECK(linesOn(share).empty());
}
