// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/crayon.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/crayon_faces.h"
#include "vision/wood/crayon/crayon_marks.h"

using namespace rackside;
using namespace rackside::test;

TEST_CASE("strokes drawn by hand are read on rendered faces") {
  CrayonTally all;
  std::mt19937_64 random(11);
  for (int i = 0; i < 8; ++i) {
    FaceToRead face = renderedFace(random);
    const auto colour = static_cast<CrayonColour>(i % 4);
    CHECK(readCrayon(face, colour).strokes.empty());
    const auto drawn = drawAllKinds(face, static_cast<BrushColour>(colour), random);
    all.add(scoreCrayon(drawn, readCrayon(face, colour).strokes, face.mmPerPx));
  }
  CHECK(all.right >= 0.9 * all.drawn);
  CHECK(all.extra <= 1);
}

TEST_CASE("another colour's strokes are not read") {
  std::mt19937_64 random(12);
  FaceToRead face = renderedFace(random);
  drawAllKinds(face, BrushColour::blue, random);
  for (const CrayonColour other : {CrayonColour::yellow, CrayonColour::red})
    CHECK(readCrayon(face, other).strokes.empty());
}

TEST_CASE("a stroke is covered, so that it is not taken for a mark of the wood") {
  std::mt19937_64 random(13);
  FaceToRead face = renderedFace(random);
  const cv::Mat before = face.bgr.clone();
  drawAllKinds(face, BrushColour::blue, random);
  const CrayonReading reading = readCrayon(face, CrayonColour::blue);
  cv::Mat changed;
  cv::absdiff(before, face.bgr, changed);
  cv::cvtColor(changed, changed, cv::COLOR_BGR2GRAY);
  const cv::Mat painted = changed > 25;
  CHECK(cv::countNonZero(painted & reading.covered) > 0.9 * cv::countNonZero(painted));
  // Not much more than the strokes with a rim of 2 mm is lost.
  CHECK(cv::countNonZero(reading.covered) < 3 * cv::countNonZero(painted));
}

TEST_CASE("strokes become the marks that the card explains") {
  Board board;
  board.name = "Test";
  for (const Point p : rectangle({0, 0, 1000, 200}))
    board.outline.vertices.push_back({p, 0.1, EdgeState::sure});
  BoardFace face;
  face.boardFromPicture = {0.5, 0, 0, 0, -0.5, 200};
  const std::vector<CrayonStroke> strokes{
      {StrokeKind::ring, 0.9, Ellipse{{400, 200}, 60, 40, 0}},
      {StrokeKind::cross, 0.9, Ellipse{{800, 200}, 12, 12, 0}},
      {StrokeKind::line, 0.9, Stroke{{{100, 60}, {1000, 50}, {1900, 60}}, 18}},
      {StrokeKind::tick, 0.9, Ellipse{{1200, 200}, 60, 60, 0}}};
  const auto marks = crayonMarks(strokes, face, board, Face::A);
  REQUIRE(marks.size() == 4);
  CHECK(marks[0].kind == MarkKind::avoid);
  CHECK(marks[1].kind == MarkKind::holeToFill);
  CHECK(marks[2].kind == MarkKind::sapwood);
  CHECK(marks[3].kind == MarkKind::favour);
  for (const Mark& m : marks) {
    CHECK(m.author == MarkAuthor::crayon);
    CHECK_FALSE(m.confirmed);
    CHECK(m.onA.has_value());
  }
  // The line lies about 28 mm from the far edge, and is run out to both ends of the board.
  const auto& sap = std::get<Polygon>(*marks[2].onA);
  const Rect box = bounds(sap);
  CHECK(box.y1 == Approx(200));
  CHECK(box.x0 == Approx(0));
  CHECK(box.x1 == Approx(1000));
  CHECK(signedArea(sap) == Approx(1000 * 27.5).epsilon(0.05));
}
