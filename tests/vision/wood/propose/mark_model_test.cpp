// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/mark_model.h"

#include <catch2/catch.hpp>

#include "vision/wood/suggest_board.h"

extern "C" {
extern const unsigned char racksideMarkModel[];     // NOLINT
extern const unsigned char racksideMarkModelEnd[];  // NOLINT
}

using namespace rackside;
using Catch::Matchers::Contains;

namespace {

// The file as it was taken into the program.
std::vector<uint8_t> builtInFile() {
  return {racksideMarkModel, racksideMarkModelEnd};
}

std::string refusal(const std::vector<uint8_t>& bytes) {
  const auto model = markModelFrom(bytes, "own.model");
  return model ? std::string("taken") : model.error().message;
}

}  // namespace

TEST_CASE("the built-in model is read from its file") {
  const auto model = markModelFrom(builtInFile(), "marks.model");
  REQUIRE(model);
  CHECK(model->onnx == builtInMarkModel().onnx);
  CHECK(model->evenedMedian > 0);
  for (int f = 0; f < kRegionFamilies; ++f) {
    CHECK(model->level[size_t(f)] > 0);
    CHECK(model->least[size_t(f)] > 0);
  }
}

TEST_CASE("a model file that is cut short, changed or no model is refused by name") {
  const std::vector<uint8_t> whole = builtInFile();
  REQUIRE(whole.size() > 1000);
  // Cut in the head, in what is said of the network, in its weights, and by the last byte.
  for (const size_t length : {size_t(10), size_t(100), whole.size() / 2, whole.size() - 1}) {
    CAPTURE(length);
    const std::string said = refusal({whole.begin(), whole.begin() + std::ptrdiff_t(length)});
    CHECK_THAT(said, Contains("own.model") && Contains("cut short"));
  }
  std::vector<uint8_t> changed = whole;
  changed[whole.size() / 3] ^= 0x10;
  CHECK_THAT(refusal(changed), Contains("own.model") && Contains("damaged"));
  std::vector<uint8_t> newer = whole;
  newer[8] = 200;  // the version stands behind the eight letters of the head
  CHECK_THAT(refusal(newer), Contains("own.model") && Contains("version 200"));
  CHECK_THAT(refusal({'n', 'o'}), Contains("own.model") && Contains("no model"));
  CHECK_THAT(refusal({}), Contains("own.model"));
}

TEST_CASE("a missing model is named, and nothing is looked at") {
  const auto model = readMarkModel("/nowhere/own.model");
  REQUIRE_FALSE(model);
  CHECK_THAT(model.error().message, Contains("/nowhere/own.model"));
  SuggestOptions options;
  options.model = "/nowhere/own.model";
  RunControl run;
  const auto found = suggestForBoard(Board{}, "/nowhere", options, run);
  REQUIRE_FALSE(found);
  CHECK_THAT(found.error().message, Contains("/nowhere/own.model"));
}
