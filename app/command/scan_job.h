// SPDX-License-Identifier: GPL-3.0-or-later
// One board scanned into the rack from the command line: photographs read, measured, stored.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "vision/scan/scan_to_rack.h"

namespace rackside::command {

struct ScanJob {
  ScanOptions options;   // name empty: the tag tells which board it is
  std::string lensFile;  // empty: the lens kept for the camera, else EXIF
  std::filesystem::path rackFolder;
  std::optional<double> moisturePercent;  // metered today
  std::optional<double> woodCelsius;      // when it was; the reading is corrected for it
};

// Reads the lens file, when there is one, into the options.
Status takeLens(ScanJob& job);

// A name that is on the rack means a retake of that board, or its face B. Fails, with nothing
// changed on disk, when a photograph cannot be read or measured, or when the tag in view belongs to
// another board than the name.
Result<ScanToRackResult> runScanJob(const ScanJob& job,
                                    const std::vector<std::filesystem::path>& photos,
                                    RunControl& control);

}  // namespace rackside::command
