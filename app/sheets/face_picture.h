// SPDX-License-Identifier: GPL-3.0-or-later
// A face picture read for a sheet, no finer than print needs.
#pragma once

#include <QImage>
#include <QTransform>
#include <filesystem>
#include <optional>

#include "core/wood/board.h"

namespace rackside::sheets {

struct FacePicture {
  QImage image;
  QTransform boardFromImage;  // image pixels (Qt's: corners at integers) to board mm
};

// The newest picture of the face, reduced to about `mmPerPx`; empty when there is none or its file
// cannot be read.
std::optional<FacePicture> readFacePicture(const Board& board, Face face,
                                           const std::filesystem::path& rackFolder, double mmPerPx);

}  // namespace rackside::sheets
