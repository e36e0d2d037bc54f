// SPDX-License-Identifier: GPL-3.0-or-later
// Suggestions from the command line: found, taken, refused, and never back.
#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "core/storage/rack_folder.h"
#include "core/wood/measure.h"
#include "tests/app/program.h"

using namespace rackside;
using namespace rackside::tests;

namespace {

// Pale wood streaked along x with two dark knots, and a ring of yellow crayon.
cv::Mat drawnFace(int widthPx, int heightPx) {
  cv::Mat streaks(heightPx, widthPx, CV_32F), face;
  cv::RNG(5).fill(streaks, cv::RNG::NORMAL, 0, 60);
  cv::GaussianBlur(streaks, streaks, {}, 40, 1.2);
  cv::merge(std::vector<cv::Mat>{135 + streaks, 175 + streaks, 200 + streaks}, face);
  face.convertTo(face, CV_8UC3);
  for (const cv::Point knot : {cv::Point(300, 150), cv::Point(900, 220)}) {
    cv::ellipse(face, knot, {26, 18}, 0, 0, 360, {60, 90, 130}, cv::FILLED);
    cv::ellipse(face, knot, {14, 10}, 0, 0, 360, {20, 35, 60}, cv::FILLED);
  }
  cv::GaussianBlur(face, face, {}, 1.5);
  cv::ellipse(face, cv::Point(600, 180), {90, 70}, 0, 0, 360, {50, 205, 240}, 20);
  return face;
}

std::string rackOfOneFace(const Folder& folder) {
  Rack rack;
  Board board;
  board.id.text = "board-one";
  board.name = "One";
  board.tag = 1;
  board.species = "maple";
  board.thicknessMm = 27;
  for (const Point p : rectangle({0, 0, 600, 180}))
    board.outline.vertices.push_back({p, 0.1, EdgeState::sure});
  board.lengthMm = lengthOf(board.outline);
  Picture picture;
  picture.id.text = "picture-one";
  picture.file = "face-A.png";
  picture.widthPx = 1200, picture.heightPx = 360;
  picture.mmPerPx = 0.5;
  picture.boardFromPicture = {0.5, 0, 0, 0, -0.5, 180};
  board.pictures.push_back(picture);
  rack.boards.push_back(board);
  REQUIRE(saveRack(rack, folder / "rack").ok());
  const auto file = boardFolder(folder / "rack", board.id) / picture.file;
  REQUIRE(cv::imwrite(file.string(), drawnFace(1200, 360)));
  return (folder / "rack").string();
}

nlohmann::json look(const std::string& rack) {
  const Ran ran =
      runProgram({"mark", "suggest", "1", "--rack", rack, "--crayon", "yellow", "--json"});
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  return ran.json()["boards"][0]["suggestions"];
}

}  // namespace

TEST_CASE("marks are suggested, taken and refused from the command line") {
  const Folder folder;
  const std::string rack = rackOfOneFace(folder);
  const nlohmann::json found = look(rack);
  std::string knot, ring;
  for (const auto& m : found) {
    CHECK(m["confirmed"] == false);
    CHECK(m["size_mm"].size() == 2);
    if (m["kind"] == "avoid") ring = m["id"];
    if (m["author"] == "proposal" && m["confidence"] > 0.5) knot = m["id"];
  }
  REQUIRE_FALSE(knot.empty());
  REQUIRE_FALSE(ring.empty());
  CHECK(found.size() <= 4);

  CHECK(runProgram({"mark", "suggest", "--rack", rack, "--refuse", knot}).code == 0);
  const Ran taken = runProgram(
      {"mark", "suggest", "1", "--rack", rack, "--accept", "all", "--above", "0.5", "--json"});
  CHECK(taken.code == 0);
  CHECK(taken.json()["accepted"].size() + 1 == found.size());
  // A second look finds nothing new: the one was refused, the others are marks now.
  CHECK(look(rack).empty());
  const auto marks = runProgram({"mark", "list", "1", "--rack", rack, "--json"}).json()["marks"];
  CHECK(marks.size() + 1 == found.size());
  for (const auto& m : marks) CHECK(m["confirmed"] == true);
}

TEST_CASE("what suggest cannot do it says, and changes nothing") {
  const Folder folder;
  const std::string rack = rackOfOneFace(folder);
  const auto before = contents(rack);
  CHECK(runProgram({"mark", "suggest", "--rack", rack, "--accept", "mk-none"}).code == 1);
  CHECK(runProgram({"mark", "suggest", "9", "--rack", rack}).code == 1);
  CHECK(runProgram({"mark", "suggest", "--rack", rack, "--crayon", "green"}).code == 2);
  CHECK(runProgram({"mark", "suggest", "--rack", rack, "--crayon-only"}).code == 2);
  CHECK(
      runProgram({"mark", "suggest", "--rack", rack, "--accept", "all", "--refuse", "all"}).code ==
      2);
  CHECK(contents(rack) == before);
  std::filesystem::remove(folder / "rack" / "boards" / "board-one" / "face-A.png");
  const Ran ran = runProgram({"mark", "suggest", "1", "--rack", rack});
  CHECK(ran.code == 1);
  CHECK(ran.err.find("face-A.png") != std::string::npos);
}
