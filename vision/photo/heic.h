// SPDX-License-Identifier: GPL-3.0-or-later
// Decodes HEIC photographs through libheif, as the sensor saw them.
#pragma once

#include "core/base/result.h"
#include "vision/photo/picture_file.h"

namespace rackside {

struct HeicPicture {
  cv::Mat bgr;  // CV_8UC3, none of the file's turnings applied
  Bytes exif;   // as PictureFile::exif
};

// Refuses, before decoding, pictures of mostPixels or more. The message names no file.
Result<HeicPicture> decodeHeic(const Bytes& bytes, double mostPixels);

}  // namespace rackside
