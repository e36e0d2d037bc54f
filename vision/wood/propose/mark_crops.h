// SPDX-License-Identifier: GPL-3.0-or-later
// Writes what makers settled on their own boards as lessons for the network of marks.
//
// DIR/images/ID.jpg    56 × 152 mm about a mark at 0.5 mm a pixel, fibres along the columns
// DIR/masks/ID_l.png   what each pixel is, as a RegionKind (mark_model.h); 0 where there is no mark
// DIR/index.csv        image,mask,labels; a line a crop, kept when more are added
//
// The form is that of the open photographs that the network was learned from
// (vision/wood/propose/training/README.md), so that both are learned from alike.
#pragma once

#include <filesystem>

#include "core/base/result.h"
#include "core/wood/board.h"

namespace rackside {

// A crop about each mark that the maker drew or took, and about each suggestion that was refused.
// Where a suggestion still waits for its answer nothing is written. Returns how many were written.
Result<int> writeMarkCrops(const Board& board, const std::filesystem::path& boardFolder,
                           const std::filesystem::path& into);

}  // namespace rackside
