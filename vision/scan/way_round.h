// SPDX-License-Identifier: GPL-3.0-or-later
// Which way round a board lay when it was photographed again, told by the wood itself: rings and
// knots stay where they are when a face is skimmed, whatever becomes of its colour.
#pragma once

#include <optional>

#include "vision/wood/face_raster.h"

namespace rackside {

// The correlation of what two pictures of one face show of rings and knots, -1..1; both of one size
// and place on the board, 1 to 2 mm a pixel. Cards are left out where either has them.
double likeness(const FaceRaster& a, const FaceRaster& b);

// `same` and `turned`: the new picture laid on the board as it lies and end for end. True: it was
// turned; empty where the wood does not tell.
std::optional<bool> turnedEndForEnd(const FaceRaster& stored, const FaceRaster& same,
                                    const FaceRaster& turned);

}  // namespace rackside
