// SPDX-License-Identifier: GPL-3.0-or-later
// A skimmed face photographed again (rendered): a rectangle fits its old outline either way round,
// so that the wood or the maker has to say which end is which.
#include "vision/scan/retake.h"

#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/storage/rack_folder.h"
#include "tests/core/support/temporary_folder.h"
#include "tests/support/photo_wear.h"
#include "tests/support/wood_face.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

constexpr double kLengthMm = 900, kWidthMm = 160, kThickMm = 27, kSkimMm = 1.5;

WoodSpec wood() {
  WoodSpec s;
  s.species = "cherry";
  s.seed = 41;
  s.pithYMm = 60;
  DefectSpec knot;
  knot.x = 250, knot.y = 110, knot.alongMm = knot.acrossMm = 9, knot.through = true;
  s.defects = {knot};
  return s;
}

PaintedWood painted(double z, double grey, bool sawMarks) {
  PaintOptions options;
  options.mmPerPx = 1;
  options.grey = grey;
  options.sawMarks = sawMarks;
  return paintFace(WoodLog(wood(), kThickMm), {0, 0, kLengthMm, kWidthMm}, z, options);
}

Board rectangleBoard() {
  Board b;
  b.name = "R";
  for (const Point p : {Point{0, 0}, {kLengthMm, 0}, {kLengthMm, kWidthMm}, {0, kWidthMm}})
    b.outline.vertices.push_back({p, 0.3, EdgeState::sure});
  return b;
}

Picture pictureOf(const PaintedWood& face, const std::string& id) {
  Picture p;
  p.id = {id};
  p.file = id + ".png";
  p.widthPx = face.bgr.cols, p.heightPx = face.bgr.rows;
  p.mmPerPx = face.mmPerPx;
  p.boardFromPicture = {face.mmPerPx, 0, face.u0, 0, -face.mmPerPx, face.v1};
  return p;
}

struct Retake {
  tests::TemporaryFolder folder;
  Board stored = rectangleBoard();
  ScanResult scan;

  explicit Retake(bool turned, bool plain = false) {
    stored.id = {"board-r"};
    Mark mark;
    mark.id = {"mk"};
    mark.kind = MarkKind::knot;
    mark.onA = Ellipse{{250, 110}, 9, 9, 0};
    stored.marks = {mark};
    PaintedWood before = painted(kThickMm, 0.8, true);
    PaintedWood now = painted(kThickMm - kSkimMm, 0.05, false);
    PhotoWear wear;
    wear.gain = 0.9, wear.tint = {0.93, 1, 1.04}, wear.falloff = 1.4, wear.noise = 2;
    now.bgr = worn(now.bgr, wear);
    if (plain) before.bgr.setTo(cv::Scalar(90, 120, 150)), now.bgr.setTo(cv::Scalar(90, 120, 160));
    if (turned) cv::rotate(now.bgr, now.bgr, cv::ROTATE_180);
    stored.pictures = {pictureOf(before, "old")};
    const auto file = boardFolder(folder.path(), stored.id) / "old.png";
    std::filesystem::create_directories(file.parent_path());
    cv::imwrite(file.string(), before.bgr);
    scan.board = rectangleBoard();
    scan.board.pictures = {pictureOf(now, "new")};
    scan.facePicture = now.bgr;
  }
  Status lay() { return layRetakeOn(stored, folder.path(), scan); }
  // Where the new picture shows a place of the stored board, by the laid picture's own figures.
  Point boardAt(double px, double py) const {
    const auto& m = scan.board.pictures.back().boardFromPicture;
    return {m[0] * px + m[1] * py + m[2], m[3] * px + m[4] * py + m[5]};
  }
};

}  // namespace

TEST_CASE("a skimmed face is laid on the old one as it lay, or end for end, by its rings") {
  const bool turned = GENERATE(false, true);
  CAPTURE(turned);
  Retake retake(turned);
  const Status laid = retake.lay();
  INFO((laid ? std::string() : laid.error().message));
  REQUIRE(laid);
  // The knot: x = 250, y = 110, pixels of a picture of 901 × 161, turned or not.
  const double px = turned ? 900 - 250 : 250, py = turned ? 110 : 160 - 110;
  CHECK(norm(retake.boardAt(px, py) - Point{250, 110}) < 1.5);
  REQUIRE(retake.scan.board.pictures.size() == 2);  // the old picture is kept
  CHECK(retake.scan.board.pictures.front().id.text == "old");
  REQUIRE(retake.scan.board.marks.size() == 1);
  CHECK(std::get<Ellipse>(*retake.scan.board.marks[0].onA).centre.x == Approx(250));
}

TEST_CASE("where neither outline nor wood tells, a named place does") {
  Retake retake(true, true);
  const Status laid = retake.lay();
  REQUIRE_FALSE(laid);
  CHECK(laid.error().message.find("--tie") != std::string::npos);
  Retake named(true, true);
  named.scan.ties = {{{250, 110}, {kLengthMm - 250, kWidthMm - 110}}};
  REQUIRE(named.lay());
  CHECK(norm(named.boardAt(900 - 250, 110) - Point{250, 110}) < 1.5);
}

TEST_CASE("another board of the same size is not taken for the one that was stored") {
  Retake retake(false);
  retake.scan.board.outline.vertices[2].at.y += 60;
  retake.scan.board.outline.vertices[3].at.y += 60;
  CHECK_FALSE(retake.lay());
}
