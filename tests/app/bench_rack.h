// SPDX-License-Identifier: GPL-3.0-or-later
// Hand-made racks whose figures are known, to check sheets and verbs by.
#pragma once

#include <filesystem>

#include "core/document/rack.h"

namespace rackside::tests {

// A board of the given size with slightly waney edges, and a drawn face picture when `folder` is
// given (the file is written there).
Board drawnBoard(int tag, double lengthMm, double widthMm,
                 const std::filesystem::path& folder = {});

// Lays cuts and pieces on a board by hand, in the plan's conventions: the left end trimmed, then
// sections of `perSection` pieces side by side.
struct HandCut {
  int sections = 2;
  int perSection = 2;
  double pieceLengthMm = 600, pieceWidthMm = 60;
  double trimMm = 50, firstOffsetMm = 12;
};
void layByHand(Rack& rack, const Board& board, const Part& part, const HandCut& how);

// Boards of 300 mm, 2.4 m and 5 m with many marks, and a plan by hand on each.
Rack benchRack(const std::filesystem::path& folder = {});

}  // namespace rackside::tests
