// SPDX-License-Identifier: GPL-3.0-or-later
// Fewer vertices, the same outline: straight stretches need few, curved ones one every few
// millimetres.
#pragma once

#include "vision/face/refine_edge.h"

namespace rackside {

// Keeps the first and the last point, every change of state, and what a chord would miss by more
// than toleranceMm; no gap is longer than longestMm.
std::vector<EdgePoint> simplified(const std::vector<EdgePoint>& side, double toleranceMm,
                                  double longestMm);

}  // namespace rackside
