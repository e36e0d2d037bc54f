// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/scan_job.h"

#include "app/command/store_scan.h"
#include "core/storage/rack_folder.h"
#include "vision/lens/lens_file.h"
#include "vision/lens/lens_shelf.h"

namespace rackside::command {
namespace {

namespace fs = std::filesystem;

Result<Rack> rackAt(const fs::path& folder) {
  if (!fs::exists(folder)) return Rack{};
  return loadRack(folder);
}

Result<std::vector<Photo>> readPhotos(const std::vector<fs::path>& files) {
  std::vector<Photo> photos;
  for (const fs::path& file : files) {
    auto photo = readPhoto(file);
    if (!photo) return photo.error();
    photos.push_back(std::move(photo).value());
  }
  return photos;
}

const Board* boardWithTag(const Rack& rack, std::optional<int> tag) {
  if (!tag) return nullptr;
  for (const Board& b : rack.boards)
    if (b.tag == tag) return &b;
  return nullptr;
}

// Where face B belongs: the board of that name.
Result<const Board*> boardForFaceB(const ScanJob& job, const Rack& rack) {
  if (job.options.name.empty())
    return Error{"Face B belongs to a board that is already on the rack: say which with --name."};
  if (const Board* b = rack.findBoardNamed(job.options.name)) return b;
  return Error{"No board called \"" + job.options.name +
               "\" is on the rack. Scan its face A first, then face B."};
}

Status nameIsFree(const ScanJob& job, const Rack& rack) {
  if (!job.options.name.empty() && rack.findBoardNamed(job.options.name))
    return Error{"A board called \"" + job.options.name +
                 "\" is already on the rack. Choose another --name, or use --face B for its other "
                 "face."};
  return success();
}

Status tagFits(const ScanResult& result, const ScanJob& job, const Rack& rack) {
  const Board* holder = boardWithTag(rack, result.tag);
  if (holder && holder->id != result.board.id)
    return Error{"Tag " + std::to_string(*result.tag) +
                 " in the photograph belongs to the board \"" + holder->name +
                 "\". Put a fresh tag on this board, or photograph the right one."};
  const Board* a = job.options.faceA;
  if (a && a->tag && result.tag && *a->tag != *result.tag)
    return Error{"The photograph shows tag " + std::to_string(*result.tag) + ", but \"" + a->name +
                 "\" carries tag " + std::to_string(*a->tag) + "."};
  return success();
}

// The lens file's, else the one kept for the camera; empty: scanFace reads the EXIF.
Result<std::optional<Lens>> lensOf(const ScanJob& job, const Photo& photo) {
  const cv::Size size = photo.bgr.size();
  if (job.lensFile.empty()) {
    const auto kept = keptLensFor(photo.exif, size, lensShelf());
    return kept ? priorFromCalibration(kept->lens, size) : std::optional<Lens>{};
  }
  auto kept = readLensFile(job.lensFile);
  if (!kept) return kept.error();
  if (auto lens = priorFromCalibration(kept->lens, size)) return lens;
  return Error{job.lensFile + " belongs to pictures of another shape than " +
               photo.file.filename().string() +
               ". Use the lens file of this camera setting, or scan without --lens."};
}

}  // namespace

Result<ScanResult> runScanJob(const ScanJob& job, const std::vector<fs::path>& files,
                              RunControl& control) {
  auto rack = rackAt(job.rackFolder);
  if (!rack) return rack.error();
  ScanJob mine = job;
  if (mine.options.face == Face::B) {
    auto a = boardForFaceB(mine, *rack);
    if (!a) return a.error();
    mine.options.faceA = *a;
  } else if (const Status s = nameIsFree(mine, *rack); !s) {
    return s.error();
  }
  auto photos = readPhotos(files);
  if (!photos) return photos.error();
  auto lens = lensOf(mine, photos->front());
  if (!lens) return lens.error();
  mine.options.lens = *lens;
  auto measured = scanFace(*photos, mine.options, control);
  if (!measured) return measured.error();
  ScanResult result = std::move(measured).value();
  Board& board = result.board;
  if (!board.tag) board.tag = result.tag;
  if (board.name.empty() && board.tag) board.name = std::to_string(*board.tag);
  if (board.name.empty())
    return Error{"No tag was found in the photograph, so the board needs a --name."};
  if (board.place.empty()) board.place = mine.place;
  if (const Status s = tagFits(result, mine, *rack); !s) return s.error();
  if (const Status s = storeScan(result, mine.rackFolder); !s) return s.error();
  return result;
}

}  // namespace rackside::command
