// SPDX-License-Identifier: GPL-3.0-or-later
// What a picture file says of itself before it is decoded: kind, size, whether it is whole, EXIF.
//
// Sources: JPEG ITU-T T.81 annex B, PNG (W3C, second edition), WebP container specification, ISO
// base media file format (ISO/IEC 14496-12) and HEIF (ISO/IEC 23008-12).
#pragma once

#include <cstdint>
#include <opencv2/core.hpp>
#include <optional>
#include <vector>

namespace rackside {

using Bytes = std::vector<uint8_t>;

enum class PictureKind { jpeg, png, webp, heic };

struct PictureFile {
  PictureKind kind = PictureKind::jpeg;
  cv::Size size;       // 0 × 0 when the header does not say
  bool whole = false;  // the file reaches its own end
  Bytes exif;          // TIFF structure, without the "Exif\0\0" before it; empty: none
  // Turning that the container itself asks for (HEIF irot, imir), as an EXIF orientation.
  std::optional<int> turning;
};

// Empty when the bytes are none of the four kinds.
std::optional<PictureFile> inspectPicture(const Bytes& bytes);

// One reader a container; each is given bytes that begin with its signature.
PictureFile inspectJpeg(const Bytes& bytes);
PictureFile inspectPng(const Bytes& bytes);
PictureFile inspectWebp(const Bytes& bytes);
PictureFile inspectHeif(const Bytes& bytes);

// Big-endian (JPEG, PNG, HEIF) and little-endian (WebP) numbers; 0 beyond the end.
uint32_t bigEndian(const Bytes& bytes, size_t at, size_t count);
uint32_t littleEndian(const Bytes& bytes, size_t at, size_t count);
// Cut from `bytes`, without a leading "Exif\0\0".
Bytes exifBlock(const Bytes& bytes, size_t from, size_t to);

}  // namespace rackside
