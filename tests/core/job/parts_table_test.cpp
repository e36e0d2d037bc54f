// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/parts_table.h"

#include <catch2/catch.hpp>

#include "../support/random_rack.h"
#include "core/base/csv.h"
#include "core/storage/json_forms.h"
#include "core/storage/parts_import.h"

using namespace rackside;
using namespace rackside::tests;

namespace {
constexpr auto mm = UnitSystem::millimetres;

std::vector<Part> read(std::string_view csv, UnitSystem bare = mm) {
  const auto parts = partsFromCsv(csv, bare);
  if (!parts) FAIL(parts.error().message);
  return *parts;
}
std::string refusal(std::string_view csv) {
  const auto parts = partsFromCsv(csv, mm);
  return parts ? std::string("accepted") : parts.error().message;
}
}  // namespace

TEST_CASE("a plain table is read") {
  const auto parts = read(
      "name,copies,length,width,thickness,grain,shows,sapwood,look,species,glue up,note\n"
      "Seat,1,1200,320,22,along,both faces,wanted on edge,lively,cherry,yes,\"wide, one board\"\n"
      "Leg,4,430,45,45,,one,,,ash,,\n");
  REQUIRE(parts.size() == 2);
  CHECK(parts[0].name == "Seat");
  CHECK(parts[0].lengthMm == 1200);
  CHECK(parts[0].showing == Showing::bothFaces);
  CHECK(parts[0].show.sapwood == SapwoodRule::wantedOnEdge);
  CHECK(parts[0].back == parts[0].show);
  CHECK(parts[0].look == Look::lively);
  CHECK(parts[0].glueUp.allowed);
  CHECK(parts[0].note == "wide, one board");
  CHECK(parts[1].copies == 4);
  CHECK(parts[1].grain == GrainRule::along);
  CHECK_FALSE(parts[1].id.empty());
  CHECK(parts[0].id != parts[1].id);
}

TEST_CASE("what spreadsheets make of a table is read") {
  // Byte-order mark, semicolons, decimal commas, CRLF, empty rows and columns, capital headings.
  const auto european = read(
      "\xEF\xBB\xBFName;Copies;Length;Width;Thickness;;\r\n"
      "Door;2;600,5;400;20;;\r\n;;;;;;\r\n");
  REQUIRE(european.size() == 1);
  CHECK(european[0].lengthMm == 600.5);
  const auto tabs =
      read("part\tqty\tlength (in)\twidth_in\tthickness in\nRail\t2\t23 5/8\t2½\t7/8\n");
  CHECK(tabs[0].lengthMm == Approx(23.625 * 25.4));
  CHECK(tabs[0].widthMm == Approx(2.5 * 25.4));
  const auto quoted = read(
      "name,copies,length,width,thickness\n\"a \"\"big\"\" one\nin two lines\",1,\"2' 3 1/2\"\"\","
      "100,20");
  CHECK(quoted[0].name == "a \"big\" one\nin two lines");
  CHECK(quoted[0].lengthMm == Approx(27.5 * 25.4));
}

TEST_CASE("a fault names its row and column and says what to type") {
  const std::string head = "name,copies,length,width,thickness,grain,sapwood\n";
  const auto has = [&head](const std::string& row, const char* place, const char* advice) {
    const std::string message = refusal(head + "Good,1,100,50,20,along,no\n" + row);
    CAPTURE(row, message);
    CHECK(message.find(place) != std::string::npos);
    CHECK(message.find(advice) != std::string::npos);
  };
  has("A,1,long,50,20", "Row 3, column \"length\"", "Type something like");
  has("A,two,100,50,20", "Row 3, column \"copies\"", "whole number");
  has("A,0,100,50,20", "Row 3, column \"copies\"", "1 or more");
  has("A,1,100,50,20,across", "Row 3, column \"grain\"", "along or free");
  has("A,1,100,50,20,,some", "Row 3, column \"sapwood\"", "wanted on edge");
  has("A,1,,50,20", "Row 3, column \"length\"", "empty");
  has("A,1,100", "Row 3, column \"width\"", "too few cells");
  has("A,1,100,50,20,,,surplus", "Row 3", "names no column");
  has("A,1,0,50,20", "Row 3", "more than 0");
  has("\n\nA,1,100,50,x", "Row 5", "thickness");
  has("\"A,1,100,50,20", "Line 3", "never closed");
  CHECK(refusal("name,copies,length,width\n").find("\"thickness\" is missing") !=
        std::string::npos);
  CHECK(refusal("name,copies,length,width,thickness,colour\n").find("\"colour\" is not known") !=
        std::string::npos);
  CHECK(refusal("name,name,copies,length,width,thickness\n").find("twice") != std::string::npos);
  CHECK(refusal("").find("empty") != std::string::npos);
  CHECK(refusal(head).find("no parts") != std::string::npos);
  CHECK(refusal(std::string("a\0b", 3)).find("no text file") != std::string::npos);
  CHECK(refusal("name,copies,length,width,thickness\n\"A\" 6\",1,1,1,1").find("closing quote") !=
        std::string::npos);
}

TEST_CASE("a written table is read back as it was") {
  for (unsigned seed = 0; seed < 40; ++seed) {
    RandomRack source(seed);
    std::vector<Part> parts;
    for (int i = 0; i < 8; ++i) {
      Part p = source.part();
      p.outline.reset();
      p.extra = nlohmann::json::object();
      // A table is read with its cells trimmed, and lengths to the style's last place.
      for (std::string* text : {&p.name, &p.species, &p.matchGroup, &p.note})
        *text = trimmed(*text);
      const auto round3 = [](double& v) { v = std::round(v * 1000) / 1000; };
      round3(p.lengthMm);
      round3(p.widthMm);
      round3(p.thicknessMm);
      round3(p.glueUp.leastStripMm);
      round3(p.glueUp.greatestStripMm);
      parts.push_back(p);
    }
    const std::string csv = partsToCsv(parts, LengthStyle{mm, 3, 16});
    CHECK(toJson(read(csv), {}) == toJson(parts, {}));
    const auto inches = read(partsToCsv(parts, LengthStyle{UnitSystem::inches, 0, 64}));
    for (size_t i = 0; i < parts.size(); ++i)
      CHECK(std::abs(inches[i].lengthMm - parts[i].lengthMm) <= 25.4 / 128 + 1e-9);
  }
}

TEST_CASE("a parts list comes as JSON too, with or without its header") {
  const auto bare = importParts(
      R"([{"name": "Seat", "length_mm": 1200, "width_mm": 320, "thickness_mm": 22}])", mm);
  REQUIRE(bare.ok());
  CHECK(bare->at(0).name == "Seat");
  CHECK_FALSE(bare->at(0).id.empty());
  const auto full = importParts(toJson(*bare, {}).dump(), mm);
  REQUIRE(full.ok());
  CHECK(full->at(0).id == bare->at(0).id);
  CHECK(importParts("name,copies,length,width,thickness\nA,1,9,9,9", mm).ok());
  const auto wrong = importParts(R"({"parts": [{"name": "Seat", "length_mm": "long"}]})", mm);
  REQUIRE_FALSE(wrong.ok());
  CHECK(wrong.error().message.find("parts[0].length_mm") != std::string::npos);
  CHECK_FALSE(importParts("{", mm).ok());
}
