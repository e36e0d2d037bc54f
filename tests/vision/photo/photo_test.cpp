// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/photo/photo.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "tests/core/support/temporary_folder.h"
#include "tests/vision/photo/picture_writer.h"
#include "vision/photo/jpeg.h"
#include "vision/photo/picture_file.h"
#include "vision/photo/sha256.h"

using namespace rackside;
using namespace rackside::test;
namespace fs = std::filesystem;

namespace {

// Wider than high, brighter to the right and redder below: any turning shows.
cv::Mat testPicture() {
  cv::Mat picture(120, 200, CV_8UC3);
  for (int r = 0; r < picture.rows; ++r)
    for (int c = 0; c < picture.cols; ++c)
      picture.at<cv::Vec3b>(r, c) = {40, uchar(40 + c), uchar(60 + r)};
  return picture;
}

double meanGap(const cv::Mat& a, const cv::Mat& b) {
  if (a.size() != b.size()) return 1e9;
  return cv::norm(a, b, cv::NORM_L1) / double(a.total() * 3);
}

fs::path write(const tests::TemporaryFolder& folder, const std::string& name, const Bytes& bytes) {
  fs::path file = folder.path() / name;
  std::ofstream(file, std::ios::binary)
      .write(reinterpret_cast<const char*>(bytes.data()), std::streamsize(bytes.size()));
  return file;
}

Bytes bytesOf(const std::string& text) {
  return Bytes(text.begin(), text.end());
}

void checkFields(const Photo& photo, int orientation) {
  CHECK(photo.exif.make == "Benchtop");
  CHECK(photo.exif.model == "Model 7");
  CHECK(photo.exif.orientation == orientation);
  REQUIRE(photo.exif.focalMm);
  CHECK(*photo.exif.focalMm == Approx(4.25));
  REQUIRE(photo.exif.focal35Mm);
  CHECK(*photo.exif.focal35Mm == Approx(26));
  CHECK(photo.exif.takenAt == "2026-03-14T09:26:53");
}

}  // namespace

// FIPS 180-4's examples, as published in NIST's "SHA256.pdf" of the cryptographic toolkit, and the
// empty message (NIST CAVP SHA256ShortMsg, Len = 0).
TEST_CASE("SHA-256 gives the published digests", "[photo]") {
  CHECK(sha256Hex({}) == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK(sha256Hex(bytesOf("abc")) ==
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256Hex(bytesOf("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")) ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(sha256Hex(Bytes(1000000, 'a')) ==
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("the raster stays as the sensor saw it whatever the orientation says", "[photo]") {
  const tests::TemporaryFolder folder;
  const cv::Mat picture = testPicture();
  for (int orientation : {1, 3, 6, 8}) {
    const Bytes exif = exifTiff(orientation);
    for (const std::string kind : {"jpg", "png", "webp"}) {
      const auto photo = readPhoto(write(folder, "p." + kind, encodePicture(picture, kind, exif)));
      INFO(kind << " " << orientation << (photo ? "" : photo.error().message));
      REQUIRE(photo.ok());
      CHECK(meanGap(photo->bgr, picture) < 3);
      checkFields(*photo, orientation);
    }
  }
}

// As EXIF 2.3 (CIPA DC-008, orientation) says each is shown: 2 mirrored left to right, 4 top to
// bottom, 5 and 7 about a diagonal. The picture shown is the same, the raster no mirror image any
// more.
TEST_CASE("a mirrored raster is turned right", "[photo]") {
  const tests::TemporaryFolder folder;
  const cv::Mat shown = testPicture();
  const auto rasterOf = [&](int orientation) {
    cv::Mat raster;
    switch (orientation) {
      case 2:
        cv::flip(shown, raster, 1);
        break;
      case 4:
        cv::flip(shown, raster, 0);
        break;
      case 5:
        cv::transpose(shown, raster);
        break;
      default:
        cv::transpose(shown, raster);
        cv::flip(raster, raster, -1);
    }
    return raster;
  };
  const auto shownOf = [](const Photo& photo) {
    cv::Mat out = photo.bgr.clone();
    if (photo.exif.orientation == 3) cv::rotate(photo.bgr, out, cv::ROTATE_180);
    if (photo.exif.orientation == 6) cv::rotate(photo.bgr, out, cv::ROTATE_90_CLOCKWISE);
    if (photo.exif.orientation == 8) cv::rotate(photo.bgr, out, cv::ROTATE_90_COUNTERCLOCKWISE);
    return out;
  };
  for (const int orientation : {2, 4, 5, 7}) {
    const auto photo = readPhoto(
        write(folder, "m.png", encodePicture(rasterOf(orientation), "png", exifTiff(orientation))));
    INFO(orientation);
    REQUIRE(photo.ok());
    const int left = photo->exif.orientation;
    CHECK((left == 1 || left == 3 || left == 6 || left == 8));
    REQUIRE(shownOf(*photo).size() == shown.size());
    CHECK(meanGap(shownOf(*photo), shown) < 1);
  }
}

TEST_CASE("a HEIC photograph keeps its sensor raster and tells its turning", "[photo]") {
  const tests::TemporaryFolder folder;
  const cv::Mat picture = testPicture();
  const Bytes plain = encodeHeic(picture, exifTiff(6));
  if (plain.empty()) {
    WARN("skipped: this libheif has no HEVC encoder");
    return;
  }
  const auto photo = readPhoto(write(folder, "p.heic", plain));
  REQUIRE(photo.ok());
  CHECK(meanGap(photo->bgr, picture) < 6);
  checkFields(*photo, 6);

  SECTION("cut off") {
    const Bytes cut(plain.begin(), plain.begin() + long(plain.size() * 2 / 3));
    const auto failed = readPhoto(write(folder, "cut.heic", cut));
    REQUIRE_FALSE(failed.ok());
    CHECK(failed.error().message.find("cut off") != std::string::npos);
  }
}

// Hand-made boxes by ISO/IEC 23008-12: what a phone held upright writes.
TEST_CASE("the turning of a HEIF file is read from its boxes", "[photo]") {
  CHECK(inspectHeif(heifWithTurn({{"irot", 3}})).turning == 6);
  CHECK(inspectHeif(heifWithTurn({{"irot", 2}})).turning == 3);
  CHECK(inspectHeif(heifWithTurn({{"irot", 1}})).turning == 8);
  CHECK(inspectHeif(heifWithTurn({{"imir", 0}})).turning == 2);
  CHECK(inspectHeif(heifWithTurn({{"imir", 1}})).turning == 4);
  CHECK(inspectHeif(heifWithTurn({{"irot", 0}})).turning == 1);
  CHECK_FALSE(inspectHeif(heifWithTurn({})).turning.has_value());
}

TEST_CASE("a file cut off is refused with what to do", "[photo]") {
  const tests::TemporaryFolder folder;
  for (const std::string kind : {"jpg", "png", "webp"}) {
    const Bytes whole = encodePicture(testPicture(), kind, exifTiff(1));
    for (double share : {0.3, 0.6, 0.9, 0.999}) {
      const Bytes cut(whole.begin(), whole.begin() + long(double(whole.size()) * share));
      const auto photo = readPhoto(write(folder, "cut." + kind, cut));
      INFO(kind << " " << share);
      REQUIRE_FALSE(photo.ok());
      CHECK(photo.error().message.find("copy it again") != std::string::npos);
    }
  }
}

// A card that was written badly leaves such gaps. The decoder goes on behind one, out of place.
TEST_CASE("a JPEG with data lost in its middle is refused", "[photo]") {
  const tests::TemporaryFolder folder;
  const Bytes whole = encodePicture(testPicture(), "jpg", exifTiff(1));
  REQUIRE(readPhoto(write(folder, "whole.jpg", whole)).ok());
  for (int tenth = 3; tenth < 10; ++tenth) {
    Bytes damaged = whole;
    const auto from = damaged.begin() + long(damaged.size() * size_t(tenth) / 10);
    std::fill(from, std::min(from + 200, damaged.end() - 2), uint8_t(0));
    const auto photo = readPhoto(write(folder, "damaged.jpg", damaged));
    INFO("from " << tenth << " tenths on");
    REQUIRE_FALSE(photo.ok());
    CHECK(photo.error().message.find("part of the picture is lost") != std::string::npos);
  }
}

// Against OpenCV's own reader.
TEST_CASE("a whole JPEG is read as other readers do", "[photo]") {
  for (const int colours : {3, 1}) {
    cv::Mat picture = testPicture();
    if (colours == 1) cv::cvtColor(picture, picture, cv::COLOR_BGR2GRAY);
    Bytes bytes;
    REQUIRE(cv::imencode(".jpg", picture, bytes, {cv::IMWRITE_JPEG_PROGRESSIVE, colours == 3}));
    const auto ours = decodeJpeg(bytes);
    REQUIRE(ours.ok());
    CHECK(cv::norm(*ours, cv::imdecode(bytes, cv::IMREAD_COLOR), cv::NORM_INF) <= 1);
  }
}

TEST_CASE("bytes after the end of a JPEG do no harm", "[photo]") {
  const tests::TemporaryFolder folder;
  Bytes bytes = encodePicture(testPicture(), "jpg", exifTiff(1));
  bytes.insert(bytes.end(), 5000, 0x41);  // phones append motion pictures there
  CHECK(readPhoto(write(folder, "p.jpg", bytes)).ok());
}

TEST_CASE("what is no photograph is refused with what to do", "[photo]") {
  const tests::TemporaryFolder folder;
  const auto message = [](const fs::path& file) {
    const auto photo = readPhoto(file);
    return photo ? std::string("read") : photo.error().message;
  };
  CHECK(message(folder.path() / "none.jpg").find("does not exist") != std::string::npos);
  CHECK(message(folder.path()).find("not a file") != std::string::npos);
  CHECK(message(write(folder, "empty.jpg", {})).find("is empty") != std::string::npos);
  CHECK(message(write(folder, "text.jpg", bytesOf("not a picture at all"))).find("JPEG") !=
        std::string::npos);
}

TEST_CASE("a picture of 100 megapixels is refused before it is decoded", "[photo]") {
  const tests::TemporaryFolder folder;
  Bytes bytes = encodePicture(testPicture(), "png", {});
  // Width and height of the header (W3C PNG, 11.2.2) set to 10000: decoding would fail otherwise.
  for (size_t at : {size_t(16), size_t(20)}) {
    bytes[at] = bytes[at + 1] = 0;
    bytes[at + 2] = 0x27;
    bytes[at + 3] = 0x10;
  }
  const auto photo = readPhoto(write(folder, "huge.png", bytes));
  REQUIRE_FALSE(photo.ok());
  CHECK(photo.error().message.find("100 megapixels") != std::string::npos);
}
