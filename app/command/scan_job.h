// SPDX-License-Identifier: GPL-3.0-or-later
// One board scanned into the rack: photographs read, measured, stored.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/document/rack.h"
#include "vision/scan/scan.h"

namespace rackside::command {

struct ScanJob {
  ScanOptions options;  // name empty: the tag names the board
  std::string place;
  std::string lensFile;  // empty: the lens kept for the camera, else EXIF
  std::filesystem::path rackFolder;
};

// Fails, with nothing changed on disk, when a photograph cannot be read or measured, when the name
// or tag is taken by another board, or when face B is asked of a board that is not there.
Result<ScanResult> runScanJob(const ScanJob& job, const std::vector<std::filesystem::path>& photos,
                              RunControl& control);

}  // namespace rackside::command
