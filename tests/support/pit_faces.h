// SPDX-License-Identifier: GPL-3.0-or-later
// Rendered faces with pits of known volume, and what the pits as proposed come to.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/wood/mark.h"
#include "vision/wood/propose/propose.h"

namespace rackside::synthetic {

struct PitFace {
  FaceToRead face;          // 0.5 mm a pixel, as a photograph wears it
  std::vector<Mark> truth;  // board frame, with depths
  std::array<double, 6> pictureFromBoard{};
};
// 180 mm of a board a pit; species, saw, greyness and the pits' sizes are drawn from the seed.
PitFace renderPitFace(uint32_t seed, int pits);

// Volumes as bowls (the fill list's usual law for a hole), of the true mouth and of the mouth as
// proposed, each with the true depth. Pits that are not proposed are left out.
struct MeasuredPit {
  double trueMm3 = 0, mm3 = 0;
};
std::vector<MeasuredPit> measuredPits(const PitFace& face);

}  // namespace rackside::synthetic
