// SPDX-License-Identifier: GPL-3.0-or-later
// Puts a measured board and its face picture into the rack's folder.
#pragma once

#include <filesystem>

#include "core/base/result.h"
#include "vision/scan/scan.h"

namespace rackside::command {

// Picture first, board.json last, so that no record ever names a picture that is not there. When
// anything fails, what this call wrote is taken away again.
Status storeScan(ScanResult& result, const std::filesystem::path& rackFolder);

}  // namespace rackside::command
