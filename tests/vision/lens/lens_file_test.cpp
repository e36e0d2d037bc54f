// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/lens/lens_file.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/core/support/json_schema.h"
#include "tests/core/support/temporary_folder.h"
#include "vision/lens/lens_shelf.h"

using namespace rackside;
using namespace rackside::tests;
namespace fs = std::filesystem;

namespace {

KeptLens example() {
  KeptLens kept;
  kept.make = "Benchtop";
  kept.model = "Model 7/b";
  kept.focalMm = 4.25;
  kept.rmsPx = 0.11;
  kept.lens = {3011.5, 2004.25, 1497.75, 0.0123, -0.0045, {4000, 3000}, {}, "calibrated: 12"};
  const double sigma[5] = {4, 3, 2.5, 0.002, 0.004};
  for (size_t i = 0; i < 5; ++i)
    for (size_t j = 0; j < 5; ++j)
      kept.lens.covariance[5 * i + j] = sigma[i] * sigma[j] * (i == j ? 1 : 0.25);
  (*kept.extra)["note"] = "with the protective glass on";
  return kept;
}

Exif exifOf(const KeptLens& kept) {
  Exif exif;
  exif.make = kept.make;
  exif.model = kept.model;
  exif.focalMm = kept.focalMm;
  exif.focal35Mm = 26;
  return exif;
}

nlohmann::json schema() {
  return schemaNamed("lens");
}

}  // namespace

TEST_CASE("a lens file comes back as it was and keeps to its schema", "[lens]") {
  const TemporaryFolder folder;
  const fs::path file = folder.path() / "lens.json";
  const KeptLens kept = example();
  REQUIRE(writeLensFile(kept, file).ok());
  CHECK(schemaFaults(schema(), toJson(kept)).empty());
  const auto back = readLensFile(file);
  REQUIRE(back.ok());
  CHECK(toJson(*back) == toJson(kept));
  CHECK((*back->extra)["note"] == (*kept.extra)["note"]);
}

TEST_CASE("a lens file with a fault is refused with the key at fault", "[lens]") {
  nlohmann::json j = toJson(example());
  SECTION("no focal length") {
    j.erase("focal_px");
    REQUIRE_FALSE(keptLensFromJson(j).ok());
    CHECK(keptLensFromJson(j).error().message.find("focal_px") != std::string::npos);
    CHECK_FALSE(schemaFaults(schema(), j).empty());
  }
  SECTION("a covariance that is none") {
    j["covariance"][0][0] = -1;
    REQUIRE_FALSE(keptLensFromJson(j).ok());
    CHECK(keptLensFromJson(j).error().message.find("covariance") != std::string::npos);
  }
  SECTION("a newer version") {
    j["version"] = 9;
    CHECK_FALSE(keptLensFromJson(j).ok());
  }
}

TEST_CASE("a scan takes the lens kept for its camera, and only that", "[lens]") {
  const TemporaryFolder folder;
  const KeptLens kept = example();
  REQUIRE(keepLens(kept, folder.path() / "shelf").ok());
  const fs::path shelf = folder.path() / "shelf";
  const Lens same = lensFor(exifOf(kept), {4000, 3000}, shelf);
  CHECK(same.focalPx == Approx(kept.lens.focalPx));
  CHECK(same.covariance[0] == Approx(16 + std::pow(0.002 * 3011.5, 2)));
  // Half the resolution: pixel centres at whole numbers, so the middle moves by a quarter pixel.
  const Lens half = lensFor(exifOf(kept), {2000, 1500}, shelf);
  CHECK(half.focalPx == Approx(kept.lens.focalPx / 2));
  CHECK(half.cx == Approx((kept.lens.cx + 0.5) / 2 - 0.5));
  Exif other = exifOf(kept);
  other.focalMm = 2.2;
  CHECK(lensFor(other, {4000, 3000}, shelf).source.find("EXIF") == 0);
  CHECK(lensFor(exifOf(kept), {4000, 2250}, shelf).source.find("EXIF") == 0);
  CHECK(lensFor(exifOf(kept), {4000, 3000}, folder.path() / "none").source.find("EXIF") == 0);
}
