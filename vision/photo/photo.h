// SPDX-License-Identifier: GPL-3.0-or-later
// A photograph as the sensor saw it.
//
// Image frame: the sensor's raster before any turning; pixel centres at integers (OpenCV's
// convention), x right, y down. EXIF orientation is kept aside and never applied to the raster;
// readers that turn the picture by themselves are told not to, or are turned back here and nowhere
// else.
#pragma once

#include <filesystem>
#include <opencv2/core.hpp>
#include <optional>
#include <string>

#include "core/base/result.h"

namespace rackside {

struct Exif {
  std::string make, model, lens;
  std::optional<double> focalMm;    // real focal length
  std::optional<double> focal35Mm;  // 35 mm equivalent
  // Pixels of this raster a millimetre of the sensor (focal plane resolution), where EXIF tells.
  std::optional<double> sensorPxPerMm;
  int orientation = 1;  // 1..8 as in EXIF 2.3
  std::string takenAt;  // ISO 8601
};

struct Photo {
  std::filesystem::path file;
  cv::Mat bgr;  // CV_8UC3
  Exif exif;
  std::string sha256;  // of the file's bytes
};

// JPEG, PNG, WebP, HEIC. Fails with what to do: missing, not a picture, damaged or cut off, 100
// megapixels or more (refused before it is decoded).
Result<Photo> readPhoto(const std::filesystem::path& file);

}  // namespace rackside
