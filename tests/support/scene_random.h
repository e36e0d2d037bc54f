// SPDX-License-Identifier: GPL-3.0-or-later
// Random scenes for measuring how well boards are measured: one seed, one scene.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "tests/support/scene.h"

namespace rackside::synthetic {

// The cases that the benchmark scores apart.
enum class SceneCase {
  threeCardsSawn,   // three cards on a sawn board, tilt up to 20°
  threeCardsRough,  // rough or live edges, or tilt up to 35°
  twoEndCards,      // two cards, calibrated lens (k1 k2 as the lens file says)
  benchCards,       // cards beside the board on the bench, 27–52 mm thick
  walkLying,        // three to five overlapping photographs
  walkLeaning,
  oneCard,
  stockCards,       // cards on 3 mm stock
  printScale,       // print scale drawn from its prior, 0.1 %
  sameWoodClutter,  // boards of the same wood touch it
  lightOnLight,     // a pale board on a pale bench
  bowed,            // both ends up by 4 to 10 mm
};
const std::vector<SceneCase>& allSceneCases();
std::string_view name(SceneCase c);  // "three-cards-sawn", …

SceneSpec randomScene(SceneCase c, uint32_t seed);

}  // namespace rackside::synthetic
