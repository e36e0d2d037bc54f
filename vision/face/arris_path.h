// SPDX-License-Identifier: GPL-3.0-or-later
// Where the top arris runs in an unrolled band about a rough side: face, then the side wall as wide
// as the camera's place says it must show, then what lies beyond, judged together.
#pragma once

#include "vision/face/edge_ribbon.h"

namespace rackside {

struct ArrisPath {                    // by row of the ribbon
  std::vector<double> offsetMm;       // outward from the ribbon's line
  std::vector<double> margin;         // how much dearer the best other path is, see border_path.h
  std::vector<double> wallMargin;     // the same, moved by the wall's width to either side
  std::vector<bool> toldByRoughness;  // see RoughnessSplit; never where a wall may lean
  // Where the side would run if all of it followed the curve that most of it does; empty for ends
  // and live edges. Where it tells the side well, a path near it is taken for a little likelier.
  std::vector<double> curveMm;
  double onCurve = 0;  // share of the rows that were found there without that
};

// maybeSawn: a long side, which may follow one smooth curve all along. straightWall: its wall
// stands straight below the arris, as that of a sawn side does, so that its foot is where the wood
// ends.
ArrisPath arrisPath(const EdgeRibbon& ribbon, bool maybeSawn, bool straightWall);

}  // namespace rackside
