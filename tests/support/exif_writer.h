// SPDX-License-Identifier: GPL-3.0-or-later
// A small EXIF block (TIFF 6.0 inside APP1, EXIF 2.3) put into a JPEG's bytes after its SOI marker.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace rackside::synthetic {

struct ExifToWrite {
  std::string make, model;
  int orientation = 1;
  std::string dateTime = "2025:03:14 10:00:00";
  double focalMm = 0;
  int focal35Mm = 0;
};

std::vector<uint8_t> withExif(const std::vector<uint8_t>& jpeg, const ExifToWrite& exif);

}  // namespace rackside::synthetic
