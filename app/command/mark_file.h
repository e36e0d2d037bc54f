// SPDX-License-Identifier: GPL-3.0-or-later
// A file of marks for several boards:
//   {"format": "rackside-marks", "version": 1,
//    "boards": [{"tag": 7 (or "board": its name), "marks": [ … as in board.json … ]}]}
#pragma once

#include <filesystem>
#include <memory>

#include "core/document/edit.h"

namespace rackside::command {

struct MarksToLoad {
  std::unique_ptr<Edit> edit;  // all of them as one step
  size_t marks = 0;
};

// A mark with the id of one that the board has replaces it, so that a file may be loaded twice; a
// mark without an id gets one. Fails on the first mark or board at fault, naming it.
Result<MarksToLoad> marksFromFile(const std::filesystem::path& file, const Rack& rack);

}  // namespace rackside::command
