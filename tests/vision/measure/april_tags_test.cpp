// SPDX-License-Identifier: GPL-3.0-or-later
// A photograph that nobody here made: AprilTag.pgm of Debian's visp-images-data 3.5.0 (GPL, read at
// test time): twelve tags of the family 36h11 on one sheet, side 53 mm, 640 × 480, oblique. Three
// tags at a time are the reference; the sides of the other nine are measured.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <opencv2/aruco.hpp>
#include <opencv2/imgcodecs.hpp>

#include "vision/measure/adjustment.h"

using namespace rackside;

namespace {

constexpr double kSideMm = 53;
// tests/fetch_data.sh unpacks the package there.
std::filesystem::path tagPicture() {
  const char* root = std::getenv("RACKSIDE_VISP_IMAGES");
  const char* home = std::getenv("HOME");
  const std::filesystem::path dir = root ? root
                                         : std::filesystem::path(home ? home : ".") /
                                               ".cache/rackside-test-data/visp-images-data";
  return dir / "usr/share/visp-images-data/ViSP-images/AprilTag/AprilTag.pgm";
}

std::vector<SeenTarget> findTags(const cv::Mat& grey) {
  auto parameters = cv::aruco::DetectorParameters::create();
  parameters->cornerRefinementMethod = cv::aruco::CORNER_REFINE_APRILTAG;
  std::vector<std::vector<cv::Point2f>> corners;
  std::vector<int> ids;
  cv::aruco::detectMarkers(grey, cv::aruco::getPredefinedDictionary(cv::aruco::DICT_APRILTAG_36h11),
                           corners, ids, parameters);
  std::vector<SeenTarget> tags;
  for (size_t i = 0; i < ids.size(); ++i) {
    SeenTarget tag;
    tag.target.name = "tag " + std::to_string(ids[i]);
    // Corners in the order in which they are found: clockwise, as seen.
    tag.target.points = {{0, kSideMm}, {kSideMm, kSideMm}, {kSideMm, 0}, {0, 0}};
    tag.target.centre = {kSideMm / 2, kSideMm / 2};
    tag.target.thicknessMm = 0;
    for (int k = 0; k < 4; ++k) tag.points.push_back({k, corners[i][k], 0.2});
    tags.push_back(tag);
  }
  return tags;
}

Lens unknownCamera(cv::Size size) {
  Lens lens;
  // A plain camera of about 55° across; nothing else is known.
  lens.focalPx = 0.95 * size.width;
  lens.cx = (size.width - 1) / 2.0;
  lens.cy = (size.height - 1) / 2.0;
  lens.size = size;
  const double sigma[] = {0.1 * lens.focalPx, 10, 10, 0.03, 0};
  for (int i = 0; i < 5; ++i) lens.covariance[i * 6] = sigma[i] * sigma[i];
  lens.source = "guess";
  return lens;
}

struct SideErrors {
  double squares = 0;
  int sides = 0;
};

SideErrors measureOthers(const std::vector<SeenTarget>& tags, const std::vector<size_t>& reference,
                         cv::Size size) {
  Sight sight{size, {}, {}, unknownCamera(size), 0};
  for (const size_t i : reference) sight.others.push_back(tags[i]);
  const auto adjusted = adjust({sight}, {});
  INFO((adjusted.ok() ? std::string() : adjusted.error().message));
  REQUIRE(adjusted.ok());
  SideErrors errors;
  for (size_t i = 0; i < tags.size(); ++i) {
    if (std::find(reference.begin(), reference.end(), i) != reference.end()) continue;
    for (int k = 0; k < 4; ++k) {
      const auto a = (*adjusted)->planeFromImage(0, tags[i].points[k].px);
      const auto b = (*adjusted)->planeFromImage(0, tags[i].points[(k + 1) % 4].px);
      REQUIRE((a && b));
      const double error = norm(*a - *b) - kSideMm;
      errors.squares += error * error;
      ++errors.sides;
    }
  }
  return errors;
}

}  // namespace

TEST_CASE("Three tags of a real photograph measure the other nine", "[measure][outside]") {
  if (!std::filesystem::exists(tagPicture())) {
    WARN("skipped: " << tagPicture() << " is not there; tests/fetch_data.sh fetches it");
    return;
  }
  const cv::Mat grey = cv::imread(tagPicture().string(), cv::IMREAD_GRAYSCALE);
  REQUIRE(grey.size() == cv::Size(640, 480));
  const std::vector<SeenTarget> tags = findTags(grey);
  REQUIRE(tags.size() == 12);
  double sum = 0, worst = 0;
  int triples = 0;
  for (size_t a = 0; a < 12; ++a)
    for (size_t b = a + 1; b < 12; ++b)
      for (size_t c = b + 1; c < 12; ++c) {
        const SideErrors e = measureOthers(tags, {a, b, c}, grey.size());
        REQUIRE(e.sides == 36);
        const double rms = std::sqrt(e.squares / e.sides);
        sum += rms;
        worst = std::max(worst, rms);
        ++triples;
      }
  REQUIRE(triples == 220);
  std::cout << "AprilTag.pgm: sides of nine tags off by " << sum / triples
            << " mm RMS on average over 220 triples, " << worst << " mm at worst\n";
  // 0.8 mm: a homography from three tags gave 0.76 in an earlier probe of this picture.
  CHECK(sum / triples <= 0.8);
}
