// SPDX-License-Identifier: GPL-3.0-or-later
// What a photograph does to a face: exposure, tint, uneven light, blur, noise, compression. Kept
// apart from how the wood is made, so that no reader of wood is tested on its maker's own colours.
#pragma once

#include <cstdint>
#include <opencv2/core.hpp>

#include "tests/support/wood_face.h"
#include "vision/wood/face_raster.h"

namespace rackside::synthetic {

struct PhotoWear {
  double gain = 1;
  cv::Vec3d tint{1, 1, 1};  // blue, green, red
  double falloff = 1;       // brightest ÷ darkest of the light along falloffRad
  double falloffRad = 0;    // direction over the picture, 0: to the right
  double blurPx = 0;        // standard deviation
  double noise = 0;         // of 255
  int jpegQuality = 0;      // 0: not compressed
  uint32_t seed = 1;
};

// As a phone on a stand might take it, drawn from the seed.
PhotoWear randomWear(uint32_t seed);

cv::Mat worn(const cv::Mat& bgr, const PhotoWear& wear);

// A reference card laid on the face with its lower left corner there: it tells the light's tint, as
// in every photograph that a board is measured from.
void layCard(PaintedWood& painted, Point corner);

// The painted face as the reader of wood gets it.
FaceRaster rasterOf(const PaintedWood& painted, const cv::Mat& bgr);

}  // namespace rackside::synthetic
