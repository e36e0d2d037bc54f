// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/scan_job.h"

#include <ctime>

#include "core/storage/open_rack.h"
#include "core/trade/moisture.h"
#include "vision/lens/lens_file.h"

namespace rackside::command {
namespace {

namespace fs = std::filesystem;

Result<Rack> rackAt(const fs::path& folder) {
  std::error_code error;
  if (!fs::exists(folder, error)) return Rack{};
  auto opened = rackside::openRack(folder);
  if (!opened) return opened.error();
  return std::move(opened.value().rack);
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

// The tag in view must not be that of another board than the one named.
Status tagFits(std::optional<int> tag, const std::string& name, const Rack& rack) {
  if (!tag || name.empty()) return success();
  const Board* named = rack.findBoardNamed(name);
  for (const Board& b : rack.boards)
    if (b.tag == tag && &b != named)
      return Error{"Tag " + std::to_string(*tag) + " in the photograph belongs to the board \"" +
                   b.name + "\". Put a fresh tag on this board, or photograph the right one."};
  if (named && named->tag && *named->tag != *tag)
    return Error{"The photograph shows tag " + std::to_string(*tag) + ", but \"" + named->name +
                 "\" carries tag " + std::to_string(*named->tag) +
                 ": photograph the right board, or leave --name out."};
  return success();
}

Status faceBHasABoard(const ScanJob& job, const Rack& rack) {
  const bool missing = job.options.face == Face::B && !job.options.name.empty() &&
                       !rack.findBoardNamed(job.options.name);
  if (!missing) return success();
  return Error{"No board called \"" + job.options.name +
               "\" is on the rack. Scan its face A first, then face B."};
}

std::string today() {
  const std::time_t now = std::time(nullptr);
  char text[16];
  std::strftime(text, sizeof text, "%Y-%m-%d", std::localtime(&now));
  return text;
}

// As the meter showed it, and corrected for the wood and its temperature where those are known.
Result<MoistureReading> readingOf(const ScanJob& job, const Shop& shop,
                                  const std::string& species) {
  MoistureReading reading;
  reading.percent = *job.moisturePercent;
  reading.date = today();
  const auto points = shop.meterCorrections.find(woodKey(species, shop.ownSpecies));
  const bool known = points != shop.meterCorrections.end();
  if (!known && !job.woodCelsius) return reading;
  const auto corrected = correctedMoisturePercent(
      *job.moisturePercent, job.woodCelsius.value_or(20), known ? points->second : 0);
  if (!corrected) return corrected.error();
  reading.meterPercent = reading.percent;
  reading.woodCelsius = job.woodCelsius;
  reading.percent = *corrected;
  return reading;
}

// The reading goes to the board as it is stored, which keeps those before.
Status meter(const ScanJob& job, const BoardId& board) {
  if (!job.moisturePercent) return success();
  auto opened = rackside::openRack(job.rackFolder, RackUse::change);
  if (!opened) return opened.error();
  Rack& rack = opened.value().rack;
  Board* stored = rack.findBoard(board);
  if (!stored) return Error{"The board that was scanned is no longer on the rack."};
  const Result<MoistureReading> reading = readingOf(job, rack.shop, stored->species);
  if (!reading) return reading.error();
  stored->moisture.push_back(*reading);
  return storeRack(opened.value(), job.rackFolder);
}

Result<ScanToRackResult> metered(const ScanJob& job, Result<ScanToRackResult> result) {
  if (!result) return result;
  if (const Status s = meter(job, result->scan.board.id); !s) return s.error();
  return result;
}

}  // namespace

Status takeLens(ScanJob& job) {
  if (job.lensFile.empty()) return success();
  auto kept = readLensFile(job.lensFile);
  if (!kept) return kept.error();
  job.options.lens = kept->lens;
  return success();
}

Result<ScanToRackResult> runScanJob(const ScanJob& job, const std::vector<fs::path>& files,
                                    RunControl& control) {
  auto rack = rackAt(job.rackFolder);
  if (!rack) return rack.error();
  if (const Status s = faceBHasABoard(job, *rack); !s) return s.error();
  auto photos = readPhotos(files);
  if (!photos) return photos.error();
  ScanToRackOptions options{job.options, {}};
  const Board* named = job.options.name.empty() ? nullptr : rack->findBoardNamed(job.options.name);
  if (named) options.board = named->name;
  // What is known of a board on the rack need not be said again.
  if (named && options.scan.thicknessMm <= 0) options.scan.thicknessMm = named->thicknessMm;
  if (job.options.face == Face::B && named) options.scan.faceA = named;
  if (job.options.face == Face::B && !named)
    // The tag in view tells.
    return metered(job, scanToRack(*photos, options, job.rackFolder, control));
  auto scan = scanFace(*photos, options.scan, control);
  if (!scan) return scan.error();
  if (const Status s = tagFits(scan->tag, job.options.name, *rack); !s) return s.error();
  return metered(job, storeScan(std::move(scan).value(), options, job.rackFolder));
}

}  // namespace rackside::command
