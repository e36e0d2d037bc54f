// SPDX-License-Identifier: GPL-3.0-or-later
// The place of the top arris to a fraction of a pixel, row by row of a ribbon: where the step of
// brightness is steepest, seen along the direction of colour that tells the face best from what
// lies next to it.
#pragma once

#include "vision/face/edge_ribbon.h"
#include "vision/face/offset_smoother.h"

namespace rackside {

// `nearMm`: where the arris is, to a millimetre or two, by row.
std::vector<OffsetReading> readArris(const EdgeRibbon& ribbon, const std::vector<double>& nearMm,
                                     double rowStepMm);

}  // namespace rackside
