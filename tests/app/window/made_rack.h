// SPDX-License-Identifier: GPL-3.0-or-later
// An invented rack for the window's tests: boards with wavy edges, marks and painted wood. Not a
// measurement of anything.
#pragma once

#include <filesystem>

#include "core/document/rack.h"

namespace rackside::made {

struct RackWish {
  int boards = 12;
  unsigned seed = 1;
  double mmPerPx = 1.0;  // of the painted pictures
  bool pictures = true;
  int marksPerBoard = 5;
  double thicknessMm = 0;  // 0: various, some unknown
  bool bothFaces = false;  // else some boards have face A only
  int parts = 4;           // rows of the parts list
};

// Thick boards with two faces and few marks, on which most parts find a place.
RackWish roomy(int boards);
Board makeBoard(unsigned seed, int tag, const RackWish& wish);
std::vector<Part> makeParts(int rows);
// Writes a whole rack folder, pictures and all.
Rack writeRack(const std::filesystem::path& folder, const RackWish& wish);
// Paints one face of a board as a JPEG file.
void paintFace(const Board& board, const Picture& picture, const std::filesystem::path& file,
               unsigned seed);

}  // namespace rackside::made
