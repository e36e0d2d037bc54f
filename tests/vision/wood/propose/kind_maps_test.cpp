// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/kind_maps.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/wood_face.h"
#include "vision/wood/propose/propose.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

// 1700 × 60 mm, three tiles along, with knots where tiles meet (567 and 1134 mm) and where they
// do not.
constexpr double kLengthMm = 1700, kWidthMm = 60;
const std::vector<double> kKnotsMm{200, 567, 850, 1134, 1500};

FaceToRead longFace(double grey = 0) {
  WoodSpec spec;
  spec.species = "maple";
  spec.seed = 11;
  spec.saw.kind = "none";
  for (const double x : kKnotsMm) {
    DefectSpec knot;
    knot.x = x, knot.y = kWidthMm / 2;
    knot.alongMm = knot.acrossMm = 8;
    knot.loose = true;
    spec.defects.push_back(knot);
  }
  PaintOptions paint;
  paint.mmPerPx = kProposeMmPerPx;
  paint.grey = grey;
  FaceToRead face;
  face.bgr = paintFace(WoodLog(spec, 27), {0, 0, kLengthMm, kWidthMm}, 27, paint).bgr;
  face.wood = cv::Mat(face.bgr.size(), CV_8U, cv::Scalar(255));
  face.mmPerPx = kProposeMmPerPx;
  return face;
}

double middleMm(const ProposedMark& m) {
  const Rect b = bounds(polygonsOf(m.shape).front());
  return kProposeMmPerPx * (b.x0 + b.x1) / 2;
}

}  // namespace

TEST_CASE("a mark across the seam of two tiles comes out once and whole") {
  RunControl run;
  const auto marks = proposeMarks(longFace(), builtInMarkModel(), run);
  for (const double x : kKnotsMm) {
    CAPTURE(x);
    std::vector<double> lengths;
    for (const ProposedMark& m : marks)
      if (familyOf(m.kind) == RegionFamily::round && std::abs(middleMm(m) - x) < 12)
        lengths.push_back(kProposeMmPerPx * bounds(polygonsOf(m.shape).front()).width());
    REQUIRE(lengths.size() == 1);
    CHECK(lengths[0] > 9);
    CHECK(lengths[0] < 32);
  }
}

TEST_CASE("the looking tells how far it is and can be stopped") {
  const FaceToRead face = longFace();
  RunControl told;
  std::vector<double> parts;
  told.onProgress = [&](double part, const std::string&) { parts.push_back(part); };
  kindMaps(builtInMarkModel(), face.bgr, face.wood, told);
  REQUIRE(parts.size() == 3);
  CHECK(std::is_sorted(parts.begin(), parts.end()));
  CHECK(parts.front() == 0);
  CHECK(parts.back() < 1);

  RunControl stopped;
  stopped.onProgress = [&](double part, const std::string&) {
    if (part > 0) stopped.stop();
  };
  const KindMaps maps = kindMaps(builtInMarkModel(), face.bgr, face.wood, stopped);
  // The second tile was the last one.
  const cv::Mat none = maps[0];
  CHECK(cv::countNonZero(none(cv::Rect(0, 0, 500, none.rows))) > 0);
  CHECK(cv::countNonZero(none(cv::Rect(1200, 0, 400, none.rows))) == 0);
}

TEST_CASE("a dark or coarse face is told to be one, a good one is not") {
  FaceToRead face = longFace();
  CHECK_FALSE(weaknessOf(face));
  CHECK_FALSE(weaknessOf(longFace(0.8)));
  FaceToRead dark = face;
  dark.bgr = cv::Mat(0.12 * face.bgr);
  REQUIRE(weaknessOf(dark));
  CHECK(weaknessOf(dark)->find("darker") != std::string::npos);
  FaceToRead coarse = face;
  coarse.mmPerPx = 1.5;
  REQUIRE(weaknessOf(coarse));
  CHECK(weaknessOf(coarse)->find("coarse") != std::string::npos);
}

TEST_CASE("crayon is no mark, whatever the wood") {
  for (const cv::Scalar& colour : {cv::Scalar(60, 50, 235), cv::Scalar(200, 90, 40)}) {
    FaceToRead face = longFace();
    face.bgr = face.bgr.colRange(500, 1000).clone();
    face.wood = face.wood.colRange(500, 1000).clone();
    RunControl run;
    const auto bare = proposeMarks(face, builtInMarkModel(), run).size();
    cv::ellipse(face.bgr, {250, 60}, {40, 9}, 20, 0, 360, colour, cv::FILLED, cv::LINE_AA);
    CHECK(proposeMarks(face, builtInMarkModel(), run).size() == bare);
  }
}
