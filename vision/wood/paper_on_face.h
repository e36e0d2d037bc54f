// SPDX-License-Identifier: GPL-3.0-or-later
// Reference cards and tags that lay on a face when it was photographed: they hide wood, and their
// white tells the light.
#pragma once

#include <array>
#include <opencv2/core.hpp>

#include "vision/wood/face_raster.h"

namespace rackside {

struct PaperOnFace {
  cv::Mat1b hidden;  // as the raster; 255 where paper lies, a margin included
  // The paper's white (blue, green, red, 0..255) and where it was seen, raster pixels, one a sheet.
  struct White {
    cv::Vec3d bgr;
    cv::Point2d at;
  };
  std::vector<White> whites;
};

PaperOnFace paperOnFace(const FaceRaster& raster);

}  // namespace rackside
