// SPDX-License-Identifier: GPL-3.0-or-later
// The arris next to a side wall that shows only a few pixels wide: three plain levels of light,
// face, wall and what lies beyond, with the wall's width known from the camera's place, are fitted
// to the profile across the side. The steepest place alone would be the foot of the wall as often
// as not.
#pragma once

#include "vision/face/edge_ribbon.h"
#include "vision/face/offset_smoother.h"

namespace rackside {

bool isNarrowWall(const RibbonRow& row);

// Replaces the readings of rows with a narrow wall. `nearMm`: where the arris is, roughly, by row.
void readNarrowWalls(const EdgeRibbon& ribbon, const std::vector<double>& nearMm,
                     std::vector<OffsetReading>& readings);

}  // namespace rackside
