// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/scan/scan_to_rack.h"

#include <opencv2/imgcodecs.hpp>

#include "core/geometry/polygon.h"
#include "core/storage/atomic_file.h"
#include "core/wood/measure.h"
#include "vision/scan/retake.h"
#include "vision/scan/sights.h"

namespace rackside {
namespace {

constexpr int kJpegQuality = 92;

// The board that a scan belongs to: as named, else by the tag in view, else by its name.
const Board* boardMeant(const Rack& rack, const ScanToRackOptions& options,
                        std::optional<int> tag) {
  if (!options.board.empty()) return rack.findBoardNamed(options.board);
  if (tag)
    for (const Board& b : rack.boards)
      if (b.tag == tag) return &b;
  if (!options.scan.name.empty())
    for (const Board& b : rack.boards)
      if (b.name == options.scan.name) return &b;
  return nullptr;
}

Result<Rack> rackAt(const std::filesystem::path& folder) {
  std::error_code ignored;
  if (!std::filesystem::exists(folder, ignored)) return Rack{};
  return loadRack(folder);
}

Result<std::string> encoded(const cv::Mat& picture) {
  std::vector<uchar> bytes;
  if (picture.empty() ||
      !cv::imencode(".jpg", picture, bytes, {cv::IMWRITE_JPEG_QUALITY, kJpegQuality}))
    return Error{"The face picture could not be encoded."};
  return std::string(bytes.begin(), bytes.end());
}

Result<ScanToRackResult> writeBoard(ScanResult scan, bool isNew,
                                    const std::filesystem::path& rackFolder) {
  ScanToRackResult out;
  out.isNew = isNew;
  out.boardFolder = boardFolder(rackFolder, scan.board.id);
  out.pictureFile = out.boardFolder / scan.board.pictures.back().file;
  const auto bytes = encoded(scan.facePicture);
  if (!bytes) return bytes.error();
  std::error_code failure;
  const bool wasThere = std::filesystem::exists(out.boardFolder, failure);
  std::filesystem::create_directories(out.boardFolder, failure);
  if (failure)
    return Error{"The folder " + out.boardFolder.string() +
                 " cannot be made: " + failure.message() + "."};
  Status written = writeFileAtomically(out.pictureFile, *bytes);
  if (written) written = saveBoard(scan.board, rackFolder);
  if (!written) {
    std::filesystem::remove(out.pictureFile, failure);
    if (!wasThere) std::filesystem::remove_all(out.boardFolder, failure);
    return written.error();
  }
  out.scan = std::move(scan);
  return out;
}

}  // namespace

Result<ScanToRackResult> storeScan(ScanResult scan, const ScanToRackOptions& options,
                                   const std::filesystem::path& rackFolder) {
  const auto rack = rackAt(rackFolder);
  if (!rack) return rack.error();
  const Board* stored = boardMeant(*rack, options, scan.tag);
  if (!stored && !options.board.empty())
    return Error{"There is no board " + options.board + " in the rack " + rackFolder.string() +
                 "."};
  if (options.scan.face == Face::B) return writeBoard(std::move(scan), false, rackFolder);
  if (!stored) {
    if (scan.board.name.empty())
      scan.board.name = scan.tag ? "board " + std::to_string(*scan.tag)
                                 : "board " + std::to_string(rack->boards.size() + 1);
    return writeBoard(std::move(scan), true, rackFolder);
  }
  const Status laid = layRetakeOn(*stored, rackFolder, scan);
  if (!laid) return laid.error();
  return writeBoard(std::move(scan), false, rackFolder);
}

Result<ScanToRackResult> scanToRack(const std::vector<Photo>& photos,
                                    const ScanToRackOptions& options,
                                    const std::filesystem::path& rackFolder, RunControl& control) {
  ScanOptions scanOptions = options.scan;
  const auto rack = rackAt(rackFolder);
  if (!rack) return rack.error();
  Board faceA;
  if (scanOptions.face == Face::B && !scanOptions.faceA) {
    std::optional<int> tag;
    if (options.board.empty()) {
      const auto sights = findSights(photos, options.scan);
      if (!sights) return sights.error();
      tag = sights->tag;
    }
    const Board* stored = boardMeant(*rack, options, tag);
    if (!stored)
      return Error{
          "Face B belongs to a board whose face A is in the rack; none was found. Name the "
          "board, or scan face A first."};
    faceA = *stored;
    scanOptions.faceA = &faceA;
    if (scanOptions.thicknessMm <= 0) scanOptions.thicknessMm = faceA.thicknessMm;
  }
  auto scan = scanFace(photos, scanOptions, control);
  if (!scan) return scan.error();
  return storeScan(std::move(*scan), options, rackFolder);
}

}  // namespace rackside
