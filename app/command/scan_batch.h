// SPDX-License-Identifier: GPL-3.0-or-later
// Many boards in one go: photographs grouped by the tag in them, each group scanned.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/command/common_options.h"
#include "app/command/scan_job.h"

namespace rackside::command {

struct PhotoGroup {
  std::optional<int> tag;
  std::vector<std::filesystem::path> photos;  // in order of name
  std::string retake;                         // why it cannot be scanned; empty: it can
};

// Groups the photographs of a folder: a subfolder is one board; photographs directly in the folder
// belong to the board whose tag they show. Fails when there is no photograph.
Result<std::vector<PhotoGroup>> groupPhotos(const std::filesystem::path& folder);

struct BatchRequest {
  std::string folder;
  std::string listFile;  // may be empty
  ScanJob job;           // what holds for every board
  CommonOptions common;
};

// Prints a line a board; kDone when all were scanned, kInputAtFault when some must be retaken.
int runScanBatch(const BatchRequest& request);

}  // namespace rackside::command
