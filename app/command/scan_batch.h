// SPDX-License-Identifier: GPL-3.0-or-later
// `scan --batch`: many boards in one go, a line a board.
#pragma once

#include <string>

#include "app/command/common_options.h"
#include "app/command/scan_job.h"

namespace rackside::command {

struct BatchRequest {
  std::string folder;
  std::string listFile;  // may be empty
  ScanJob job;           // what holds for every board
  CommonOptions common;
};

// Prints a line a board; kDone when all were scanned, kInputAtFault when some must be retaken.
int runScanBatch(const BatchRequest& request);

}  // namespace rackside::command
