// SPDX-License-Identifier: GPL-3.0-or-later
// EXIF 2.3 through libexif: the few fields that measuring needs.
#pragma once

#include "vision/photo/photo.h"
#include "vision/photo/picture_file.h"

namespace rackside {

// `tiff`: as PictureFile::exif. Fields that are missing or make no sense stay at their defaults.
Exif readExif(const Bytes& tiff);

}  // namespace rackside
