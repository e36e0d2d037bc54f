// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/propose.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/propose_score.h"
#include "tests/support/wood_face.h"
#include "vision/wood/propose/propose_board.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

DefectSpec knotAt(double x, double y, double radiusMm) {
  DefectSpec d;
  d.x = x, d.y = y;
  d.alongMm = d.acrossMm = radiusMm;
  d.loose = true;
  return d;
}

// 600 × 160 mm of a rendered board.
FaceToRead rendered(const std::string& species, double grey, std::vector<DefectSpec> defects,
                    const std::string& saw) {
  WoodSpec spec;
  spec.species = species;
  spec.seed = 7;
  spec.defects = std::move(defects);
  spec.saw.kind = saw;
  PaintOptions paint;
  paint.mmPerPx = 0.5;
  paint.grey = grey;
  FaceToRead face;
  face.bgr = paintFace(WoodLog(spec, 27), {0, 0, 600, 160}, 27, paint).bgr;
  face.wood = cv::Mat(face.bgr.size(), CV_8U, cv::Scalar(255));
  face.mmPerPx = paint.mmPerPx;
  return face;
}

std::vector<ProposedMark> proposed(const FaceToRead& face) {
  RunControl run;
  return proposeMarks(face, builtInMarkModel(), run);
}

Board boardOf(double thicknessMm) {
  Board board;
  board.id.text = "b";
  board.name = "Test";
  board.species = "ash";
  board.thicknessMm = thicknessMm;
  board.faceB = FaceRegistration{1, "outline"};
  for (const Point p : rectangle({0, 0, 1000, 160}))
    board.outline.vertices.push_back({p, 0.1, EdgeState::sure});
  return board;
}

Mark seen(Face face, double x, double y, double semiMm, double confidence) {
  Mark m;
  m.id.text = newIdText("mk");
  m.kind = MarkKind::knot;
  m.on(face) = Ellipse{{x, y}, semiMm, semiMm, 0};
  m.author = MarkAuthor::proposal;
  m.confirmed = false;
  m.confidence = confidence;
  return m;
}

}  // namespace

TEST_CASE("knots of a rendered board are proposed where they are, grey and sawn as it is") {
  for (const double grey : {0.0, 0.75}) {
    CAPTURE(grey);
    const auto marks =
        proposed(rendered("cherry", grey, {knotAt(150, 60, 9), knotAt(420, 100, 6)}, "band"));
    for (const Point truth : {Point{150, 60}, Point{420, 100}}) {
      const Point px{truth.x / 0.5, (160 - truth.y) / 0.5};
      const bool found = std::any_of(marks.begin(), marks.end(), [&](const ProposedMark& m) {
        const Polygons shape = polygonsOf(m.shape);
        return !shape.empty() && contains(shape.front(), px) && m.confidence >= 0.6;
      });
      CAPTURE(truth.x, truth.y);
      CHECK(found);
    }
    CHECK(marks.size() <= 4);
  }
}

TEST_CASE("a clear board does not drown in proposals, whatever the saw left on it") {
  for (const std::string species : {"cherry", "ash", "walnut", "maple", "oak"})
    for (const std::string saw : {"band", "circular"}) {
      CAPTURE(species, saw);
      CHECK(proposed(rendered(species, 0.75, {}, saw)).size() <= 1);
    }
}

TEST_CASE("what is not wood is not looked at") {
  FaceToRead face = rendered("maple", 0, {knotAt(150, 60, 9)}, "none");
  REQUIRE_FALSE(proposed(face).empty());
  cv::rectangle(face.wood, cv::Rect(240, 140, 120, 120), 0, cv::FILLED);
  CHECK(proposed(face).empty());
  face.wood.setTo(0);
  CHECK(proposed(face).empty());
}

TEST_CASE("a knot seen on both faces goes through, and is the surer for it") {
  const Board board = boardOf(27);
  const auto joined = joinFaces({seen(Face::A, 300, 80, 10, 0.7), seen(Face::A, 700, 60, 4, 0.8)},
                                {seen(Face::B, 308, 84, 12, 0.5), seen(Face::B, 500, 80, 9, 0.3)},
                                board, builtInMarkModel());
  REQUIRE(joined.size() == 2);  // the lone one on face B is not sure enough by itself
  CHECK(joined[0].through);
  CHECK(joined[0].onA.has_value());
  CHECK(joined[0].onB.has_value());
  CHECK(joined[0].confidence == Approx(1 - 0.3 * 0.5));
  CHECK_FALSE(joined[1].through);
}

TEST_CASE("unlike sizes and far places are not one knot") {
  const Board board = boardOf(27);
  const auto far = joinFaces({seen(Face::A, 300, 80, 10, 0.8)}, {seen(Face::B, 340, 80, 10, 0.8)},
                             board, builtInMarkModel());
  CHECK(far.size() == 2);
  const auto unlike = joinFaces({seen(Face::A, 300, 80, 20, 0.8)}, {seen(Face::B, 302, 80, 4, 0.8)},
                                board, builtInMarkModel());
  CHECK(unlike.size() == 2);
}

TEST_CASE("knots of labelled photographs are found (RACKSIDE_WOOD_SURFACE)") {
  const auto folder = test::woodSurfaceFolder();
  if (!folder) {
    WARN("skipped: RACKSIDE_WOOD_SURFACE names no folder of labelled photographs.");
    return;
  }
  const auto names = test::woodSurfaceNames(*folder);
  test::ProposeTally all;
  for (size_t i = 0; i < names.size(); i += 30) {
    const test::LabelledWood picture = test::loadLabelledWood(*folder, names[i]);
    all.add(
        test::scoreProposals(proposed({picture.bgr, picture.wood, kProposeMmPerPx / 2}), picture));
  }
  const int knots = all.labelled[1] + all.labelled[2] + all.labelled[8];
  REQUIRE(knots > 0);
  // The model has seen most of these pictures: this guards the wiring; the honest figures are the
  // benchmark's.
  CHECK(all.found[1] + all.found[2] + all.found[8] >= 0.8 * knots);
  CHECK(all.falseOnes() <= 0.5 * all.pictures);
}
