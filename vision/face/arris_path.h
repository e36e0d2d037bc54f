// SPDX-License-Identifier: GPL-3.0-or-later
// Where the top arris runs in an unrolled band about a rough side: face, then the side wall as wide
// as the camera's place says it must show, then what lies beyond, judged together.
#pragma once

#include "vision/face/edge_ribbon.h"

namespace rackside {

struct ArrisPath {                 // by row of the ribbon
  std::vector<double> offsetMm;    // outward from the ribbon's line
  std::vector<double> margin;      // how much dearer the best other path is, see border_path.h
  std::vector<double> wallMargin;  // the same, moved by the wall's width to either side
};

// `expectedMm`, by row, or empty: where the side would run if it went on as most of it does. A path
// near that is a little likelier.
ArrisPath arrisPath(const EdgeRibbon& ribbon, const std::vector<double>& expectedMm = {});

}  // namespace rackside
