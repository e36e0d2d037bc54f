// SPDX-License-Identifier: GPL-3.0-or-later
// Picture files made for tests: the containers and their EXIF written by hand from the standards,
// so that the readers are not checked by themselves.
#pragma once

#include <cstdint>
#include <opencv2/core.hpp>
#include <string>
#include <utility>
#include <vector>

namespace rackside::test {

using FileBytes = std::vector<uint8_t>;

// An EXIF block (TIFF, big-endian): make Benchtop, model "Model 7", focal length 4.25 mm, 26 mm on
// 35 mm film, taken 2026-03-14 09:26:53.
FileBytes exifTiff(int orientation);

// kind: jpg, png, webp. The EXIF block is inserted as the container's standard says.
FileBytes encodePicture(const cv::Mat& bgr, const std::string& kind, const FileBytes& tiff);

// Through libheif's encoder; empty when it has none.
FileBytes encodeHeic(const cv::Mat& bgr, const FileBytes& tiff);

// The boxes of a HEIF file with one item and these turnings, no picture data.
FileBytes heifWithTurn(const std::vector<std::pair<std::string, int>>& turns);

}  // namespace rackside::test
