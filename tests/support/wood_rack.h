// SPDX-License-Identifier: GPL-3.0-or-later
// Racks of rendered faces for ranking, one board of which fulfils a wish by construction, and where
// on it the part has to lie. What is best follows from the log the boards were painted from, not
// from any score.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/job/part.h"
#include "core/wood/board.h"
#include "tests/support/photo_wear.h"
#include "vision/wood/figure_maps.h"

namespace rackside::synthetic {

struct WoodRack {
  std::vector<Board> boards;
  std::map<std::string, FigureMaps> figures;  // by board id
  Part part;
  std::string best;  // board id
  // Where the part's middle must lie across the board, mm, when the wish decides it; and along it.
  std::optional<double> middleY, middleX;
};

// wish: "arch-centred", "straight", "lively", "even-colour", "sapwood-edge". `wear` changes the
// photographs: 0 none, else drawn from it, another for each board.
WoodRack woodRack(const std::string& wish, uint32_t seed, int boards);

// A board (outline, one picture entry) of this size whose face is painted from the log.
Board paintedBoard(const std::string& id, const WoodSpec& spec, double lengthMm, double widthMm,
                   double grey, const PhotoWear& wear, FigureMaps& figure);

}  // namespace rackside::synthetic
