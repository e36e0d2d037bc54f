// SPDX-License-Identifier: GPL-3.0-or-later
// A face picture for other programs, its scale in the file: PNG with its resolution (pixels a
// metre, rounded to whole ones as the format wants) and a world file beside it that gives the exact
// place of every pixel centre in board millimetres, y up.
#pragma once

#include <filesystem>
#include <string>

#include "core/base/result.h"
#include "core/wood/board.h"

namespace rackside::sheets {

struct FaceFile {
  std::string png;
  std::string world;  // six lines: A D B E C F of x = A px + B py + C, y = D px + E py + F
};

// Fails when the face has no picture or its file cannot be read.
Result<FaceFile> faceFile(const Board& board, Face face, const std::filesystem::path& rackFolder);

}  // namespace rackside::sheets
