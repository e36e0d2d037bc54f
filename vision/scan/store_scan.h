// SPDX-License-Identifier: GPL-3.0-or-later
// Puts a scan's face picture into the rack's folder.
#pragma once

#include <filesystem>

#include "core/base/result.h"
#include "vision/scan/scan.h"

namespace rackside {

// Writes result.facePicture as JPEG beside the board's other pictures and names it in
// result.board.pictures.back().file. The board's own file is not written: the picture of a board
// that the rack does not have yet waits for it (waitingFolder()). On failure nothing is left
// behind.
Status storeFacePicture(ScanResult& result, const std::filesystem::path& rackFolder);

}  // namespace rackside
