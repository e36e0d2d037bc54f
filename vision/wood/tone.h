// SPDX-License-Identifier: GPL-3.0-or-later
// The light and colour of a face freed from how it was lit.
#pragma once

#include <opencv2/core.hpp>

#include "vision/wood/face_raster.h"

namespace rackside {

// How the light fell: natural logarithm of what multiplies the wood, a polynomial over the face.
// Which slow changes are light and which are wood is told by colour: light changes all channels
// alike, wood does not.
struct LightField {
  // Of 1, u, u², u³, v, u v with u, v in -1..1 over the raster.
  std::array<double, 6> coefficient{};
  double at(double u, double v) const {
    const auto& c = coefficient;
    return c[0] + u * (c[1] + u * (c[2] + u * c[3])) + v * (c[4] + c[5] * u);
  }
};

LightField lightField(const FaceRaster& raster);

// ln(light) with the field taken out: 0 is the face's mean. Off the wood 0.
cv::Mat1f evenedTone(const FaceRaster& raster, const LightField& light);

}  // namespace rackside
