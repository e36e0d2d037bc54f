// SPDX-License-Identifier: GPL-3.0-or-later
// Faces to draw crayon on, rendered and real, and strokes drawn on them at known places.
#pragma once

#include <random>

#include "tests/support/crayon_brush.h"
#include "tests/support/labelled_wood.h"
#include "vision/wood/crayon/crayon.h"

namespace rackside::test {

// 900 × 200 mm of a rendered face: any species, grey or planed, saw marks, defects.
FaceToRead renderedFace(std::mt19937_64& random);
// A labelled photograph laid end to end with its mirror images, 0.3 mm a pixel: about 670 mm.
FaceToRead realFace(const LabelledWood& picture);

// Draws one stroke of each kind side by side and returns them.
std::vector<BrushStroke> drawAllKinds(FaceToRead& face, BrushColour colour,
                                      std::mt19937_64& random);

struct CrayonTally {
  int drawn = 0, right = 0, wrongKind = 0, missed = 0, extra = 0;
  int confusion[4][5] = {};  // drawn as; read as, the last: not read
  void add(const CrayonTally& other);
};
CrayonTally scoreCrayon(const std::vector<BrushStroke>& drawn,
                        const std::vector<CrayonStroke>& read, double mmPerPx);

}  // namespace rackside::test
