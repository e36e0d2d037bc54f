// SPDX-License-Identifier: GPL-3.0-or-later
// From the rendered pinhole picture to the photograph: lens, exposure, blur, noise, JPEG, EXIF.
#pragma once

#include <filesystem>
#include <opencv2/core.hpp>

#include "tests/support/scene.h"

namespace rackside::synthetic {

// The raster to render: the camera's pinhole picture, its principal point in the very middle, large
// enough that the lens finds a source for every pixel.
struct PinholeRaster {
  int widthPx = 0, heightPx = 0;
};
PinholeRaster pinholeRaster(const CameraSpec& camera);

// rendered: CV_16UC3, linear light, of the raster above.
cv::Mat developPhoto(const cv::Mat& rendered, const CameraSpec& camera, uint32_t seed);

void writePhoto(const cv::Mat& photo, const CameraSpec& camera, const std::filesystem::path& file);

}  // namespace rackside::synthetic
