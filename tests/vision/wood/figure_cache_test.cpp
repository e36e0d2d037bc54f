// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/figure_cache.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <opencv2/imgcodecs.hpp>

#include "core/storage/rack_folder.h"
#include "tests/core/support/temporary_folder.h"
#include "tests/support/figure_score.h"

using namespace rackside;
using namespace rackside::synthetic;
using rackside::tests::TemporaryFolder;

namespace {

Board boardWithPicture(const std::filesystem::path& rack) {
  const SawnCase c = sawnCase(2, "band", false);
  const PaintedWood p = paintFace(WoodLog(c.wood, 27), {0, 0, 200, 100}, 27, c.paint);
  Board b;
  b.id = {"board-figure"};
  b.name = "seven";
  b.species = "walnut";
  for (const Point q : {Point{0, 0}, {200, 0}, {200, 100}, {0, 100}})
    b.outline.vertices.push_back({q, 0.5, EdgeState::sure});
  Picture picture;
  picture.id = {"picture-figure"};
  picture.file = "face.png";
  picture.widthPx = p.bgr.cols;
  picture.heightPx = p.bgr.rows;
  picture.mmPerPx = p.mmPerPx;
  picture.boardFromPicture = {p.mmPerPx, 0, p.u0, 0, -p.mmPerPx, p.v1};
  picture.sourceHashes = {"abc"};
  b.pictures = {picture};
  std::filesystem::create_directories(boardFolder(rack, b.id));
  cv::imwrite((boardFolder(rack, b.id) / picture.file).string(), p.bgr);
  return b;
}

}  // namespace

TEST_CASE("figure maps come back from the cache as they were read") {
  const TemporaryFolder folder;
  const auto rack = folder.path() / "rack", cache = folder.path() / "cache";
  Board b = boardWithPicture(rack);
  RunControl control;
  const auto first = figureOf(b, Face::A, rack, cache, control);
  REQUIRE(first.ok());
  const auto file = boardFolder(rack, b.id) / "face.png";
  const std::string key = figureKey(b, b.pictures[0], file);
  const auto kept = readFigure(cache, b.pictures[0], key);
  REQUIRE(kept.has_value());
  CHECK(kept->layers == first->layers);
  CHECK(kept->area == first->area);
  CHECK(kept->saw.pitchMm == first->saw.pitchMm);
  CHECK(kept->arches.size() == first->arches.size());
  // Another outline is another face.
  b.outline.vertices[2].at = {190, 100};
  CHECK_FALSE(readFigure(cache, b.pictures[0], figureKey(b, b.pictures[0], file)).has_value());
}

TEST_CASE("a broken cache file is read anew, not believed") {
  const TemporaryFolder folder;
  const auto rack = folder.path() / "rack", cache = folder.path() / "cache";
  const Board b = boardWithPicture(rack);
  RunControl control;
  REQUIRE(figureOf(b, Face::A, rack, cache, control).ok());
  const auto file = cache / "figure" / "picture-figure.figure";
  REQUIRE(std::filesystem::exists(file));
  std::filesystem::resize_file(file, std::filesystem::file_size(file) - 5);
  const std::string key = figureKey(b, b.pictures[0], boardFolder(rack, b.id) / "face.png");
  CHECK_FALSE(readFigure(cache, b.pictures[0], key).has_value());
  CHECK(figureOf(b, Face::A, rack, cache, control).ok());
}

TEST_CASE("a face without a picture says what to do") {
  const TemporaryFolder folder;
  Board b = boardWithPicture(folder.path());
  RunControl control;
  const auto other = figureOf(b, Face::B, folder.path(), folder.path() / "cache", control);
  REQUIRE_FALSE(other.ok());
  CHECK(other.error().message.find("scan") != std::string::npos);
}
