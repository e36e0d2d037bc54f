// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/photo/photo.h"

#include <array>
#include <fstream>
#include <future>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "vision/photo/exif_reader.h"
#include "vision/photo/heic.h"
#include "vision/photo/jpeg.h"
#include "vision/photo/sha256.h"

namespace rackside {
namespace {

// A colour raster of 100 megapixels takes 300 MB and its decoding as much again.
constexpr double kMostPixels = 100e6;

Result<Bytes> readBytes(const std::filesystem::path& file) {
  std::error_code error;
  const auto status = std::filesystem::status(file, error);
  if (!std::filesystem::exists(status)) return Error{"does not exist; check its name"};
  if (!std::filesystem::is_regular_file(status)) return Error{"is not a file; give a photograph"};
  std::ifstream in(file, std::ios::binary);
  if (!in) return Error{"cannot be opened; check that you may read it"};
  Bytes bytes(std::filesystem::file_size(file, error));
  in.read(reinterpret_cast<char*>(bytes.data()), std::streamsize(bytes.size()));
  if (error || !in) return Error{"cannot be read to its end; copy it again"};
  if (bytes.empty()) return Error{"is empty; copy it again from the camera"};
  return bytes;
}

Status checkBeforeDecoding(const PictureFile& file) {
  const double pixels = double(file.size.width) * file.size.height;
  if (pixels >= kMostPixels)
    return Error{"has " + std::to_string(int(pixels / 1e6)) +
                 " megapixels; set the camera to less than " +
                 std::to_string(int(kMostPixels / 1e6))};
  if (!file.whole) return Error{"is cut off before its end; copy it again from the camera"};
  return success();
}

Result<cv::Mat> decodePlain(const Bytes& bytes) {
  cv::Mat bgr;
  try {
    bgr = cv::imdecode(bytes, cv::IMREAD_COLOR | cv::IMREAD_IGNORE_ORIENTATION);
  } catch (const cv::Exception&) {
    bgr.release();
  }
  if (bgr.empty()) return Error{"is damaged and cannot be decoded; copy it again from the camera"};
  return bgr;
}

// Codes and wood are read in a raster that may be turned, but not in its mirror image. EXIF's
// turnings 2, 4, 5 and 7 show the mirror image of the raster (CIPA DC-008, orientation): its rows
// are reversed, and what is left is a turning of what that gives.
void takeMirroringOut(Photo& photo) {
  constexpr std::array kLeft = {0, 1, 1, 3, 3, 8, 6, 6, 8};
  int& turning = photo.exif.orientation;
  if (turning != 2 && turning != 4 && turning != 5 && turning != 7) return;
  cv::flip(photo.bgr, photo.bgr, 1);
  turning = kLeft[size_t(turning)];
}

Result<Photo> decode(const Bytes& bytes) {
  const auto file = inspectPicture(bytes);
  if (!file)
    return Error{"is not a photograph that can be read here; give a JPEG, PNG, WebP or HEIC file"};
  if (const Status fit = checkBeforeDecoding(*file); !fit) return fit.error();
  auto fingerprint = std::async(std::launch::async, [&bytes] { return sha256Hex(bytes); });
  Photo photo;
  if (file->kind == PictureKind::heic) {
    auto picture = decodeHeic(bytes, kMostPixels);
    if (!picture) return picture.error();
    photo.bgr = picture->bgr;
    photo.exif = readExif(picture->exif);
  } else {
    auto bgr = file->kind == PictureKind::jpeg ? decodeJpeg(bytes) : Result<cv::Mat>(cv::Mat());
    if (bgr && bgr->empty()) bgr = decodePlain(bytes);
    if (!bgr) return bgr.error();
    photo.bgr = *bgr;
    photo.exif = readExif(file->exif);
  }
  // Where the container asks for a turning, EXIF's is only a remark (ISO/IEC 23008-12).
  if (file->turning) photo.exif.orientation = *file->turning;
  takeMirroringOut(photo);
  photo.sha256 = fingerprint.get();
  return photo;
}

}  // namespace

Result<Photo> readPhoto(const std::filesystem::path& file) {
  const auto bytes = readBytes(file);
  if (!bytes) return Error{file.string() + " " + bytes.error().message};
  auto photo = decode(*bytes);
  if (!photo) return Error{file.string() + " " + photo.error().message};
  Photo result = std::move(photo).value();
  result.file = file;
  return result;
}

}  // namespace rackside
