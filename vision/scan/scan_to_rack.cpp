// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/scan/scan_to_rack.h"

#include <opencv2/imgcodecs.hpp>

#include "core/geometry/polygon.h"
#include "core/storage/open_rack.h"
#include "core/storage/rack_files.h"
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
  auto opened = openRack(folder);
  if (!opened) return opened.error();
  return std::move(opened.value().rack);
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
  const std::string& picture = scan.board.pictures.back().file;
  out.pictureFile = out.boardFolder / picture;
  auto jpeg = encoded(scan.facePicture);
  if (!jpeg) return jpeg.error();
  auto board = boardBytes(scan.board);
  if (!board) return board.error();
  RackChange change;
  change.write["boards/" + scan.board.id.text + "/" + picture] = std::move(jpeg).value();
  change.write[boardPlace(scan.board.id)] = std::move(board).value();
  if (const Status done = carryOut(change, rackFolder); !done) return done.error();
  out.scan = std::move(scan);
  return out;
}

}  // namespace

Result<ScanToRackResult> storeScan(ScanResult scan, const ScanToRackOptions& options,
                                   const std::filesystem::path& rackFolder) {
  auto opened = openRack(rackFolder, RackUse::change);
  if (!opened) return opened.error();
  for (const DamagedFile& file : opened->damaged) scan.warnings.push_back(file.message);
  const Rack& rack = opened->rack;
  const Board* stored = boardMeant(rack, options, scan.tag);
  if (!stored && !options.board.empty())
    return Error{"There is no board " + options.board + " in the rack " + rackFolder.string() +
                 "."};
  if (options.scan.face == Face::B) {
    // The board as it is by now: it may have been marked while the photographs were read.
    const Board* now = rack.findBoard(scan.board.id);
    if (!now) return Error{"The board whose face B this is has left the rack meanwhile."};
    Board board = *now;
    board.faceB = scan.board.faceB;
    board.pictures.push_back(scan.board.pictures.back());
    scan.board = std::move(board);
    return writeBoard(std::move(scan), false, rackFolder);
  }
  if (!stored) {
    if (scan.board.name.empty())
      scan.board.name = scan.tag ? "board " + std::to_string(*scan.tag)
                                 : "board " + std::to_string(rack.boards.size() + 1);
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
