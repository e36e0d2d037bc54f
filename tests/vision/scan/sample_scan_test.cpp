// SPDX-License-Identifier: GPL-3.0-or-later
// Boards of the sample photographs (rendered, their truth beside them) measured from end to end.
#include <catch2/catch.hpp>
#include <filesystem>

#include "tests/support/outline_score.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

const std::filesystem::path kSamples = std::filesystem::path(RACKSIDE_SOURCE_DIR) / "samples";

struct Sample {
  const char* scene;
  const char* photos;
};

}  // namespace

TEST_CASE("sample boards are measured to a millimetre or two and no wrong stretch is sure") {
  const Sample sample =
      GENERATE(Sample{"board-01-b", "photos-face-b"},  // cherry on battens over concrete
               Sample{"board-03-b", "photos-face-b"}, Sample{"board-07-b", "photos-face-b"},
               Sample{"board-01", "photos"}, Sample{"board-03", "photos"},
               Sample{"board-04", "photos"},   // leaning, a sliver of its wall to be seen
               Sample{"board-09", "photos"},   // boards of the same wood about it
               Sample{"board-10", "photos"},   // photographed upside down
               Sample{"board-12", "photos"});  // light wood on a bench, one edge rough
  const BoardTruth truth =
      readBoardTruth(kSamples / "truth" / (std::string(sample.scene) + ".truth.json"));
  std::vector<Photo> photos;
  for (const std::string& file : truth.files) {
    const auto photo = readPhoto(kSamples / sample.photos / file);
    REQUIRE(photo);
    photos.push_back(*photo);
  }
  RunControl control;
  const auto result = scanFace(photos, scanOptionsFor(truth), control);
  REQUIRE(result);
  const BoardScore score = scoreBoard(result->board, truth);
  INFO(sample.scene);
  CHECK(std::abs(score.length) <= 2);
  CHECK(score.width95 <= 1.2);
  CHECK(score.widthsInside >= 0.8 * score.widthCount);
  CHECK(score.outlineWorst <= 3);
  CHECK(score.wrongSure == 0);
  CHECK(score.unsure <= 0.05);
}

TEST_CASE("a photograph of only a part of a long board asks for more, and measures nothing") {
  const std::string file = GENERATE("board-02-1.jpg", "board-02-2.jpg", "board-02-3.jpg");
  const auto photo = readPhoto(kSamples / "photos" / file);
  REQUIRE(photo);
  ScanOptions options;
  options.thicknessMm = 27;
  RunControl control;
  const auto result = scanFace({*photo}, options, control);
  INFO(file);
  REQUIRE_FALSE(result);
  CHECK(result.error().message.find("runs out of the picture") != std::string::npos);
}
