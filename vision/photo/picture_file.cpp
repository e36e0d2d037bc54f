// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/photo/picture_file.h"

#include <algorithm>
#include <cstring>
#include <string_view>

namespace rackside {
namespace {

bool holdsAt(const Bytes& bytes, size_t at, std::string_view text) {
  return at + text.size() <= bytes.size() &&
         std::memcmp(bytes.data() + at, text.data(), text.size()) == 0;
}

// The next marker after entropy-coded data: 0xFF followed by neither 0 nor a restart marker.
size_t endOfScan(const Bytes& bytes, size_t at) {
  while (at + 1 < bytes.size()) {
    const void* hit = std::memchr(bytes.data() + at, 0xFF, bytes.size() - at - 1);
    if (!hit) return bytes.size();
    at = static_cast<size_t>(static_cast<const uint8_t*>(hit) - bytes.data());
    const uint8_t next = bytes[at + 1];
    if (next != 0 && next != 0xFF && !(next >= 0xD0 && next <= 0xD7)) return at;
    at += next == 0xFF ? 1 : 2;
  }
  return bytes.size();
}

bool isFrameHeader(uint8_t marker) {
  return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

}  // namespace

uint32_t bigEndian(const Bytes& bytes, size_t at, size_t count) {
  uint32_t value = 0;
  for (size_t i = 0; i < count; ++i)
    value = value << 8 | (at + i < bytes.size() ? bytes[at + i] : 0u);
  return value;
}

uint32_t littleEndian(const Bytes& bytes, size_t at, size_t count) {
  uint32_t value = 0;
  for (size_t i = count; i-- > 0;)
    value = value << 8 | (at + i < bytes.size() ? bytes[at + i] : 0u);
  return value;
}

Bytes exifBlock(const Bytes& bytes, size_t from, size_t to) {
  to = std::min(to, bytes.size());
  if (holdsAt(bytes, from, std::string_view("Exif\0\0", 6))) from += 6;
  if (from >= to) return {};
  return Bytes(bytes.begin() + long(from), bytes.begin() + long(to));
}

PictureFile inspectJpeg(const Bytes& bytes) {
  PictureFile file;
  file.kind = PictureKind::jpeg;
  size_t at = 2;
  while (at + 4 <= bytes.size()) {
    if (bytes[at] != 0xFF) return file;
    const uint8_t marker = bytes[at + 1];
    if (marker == 0xFF) {  // fill byte
      ++at;
      continue;
    }
    const size_t length = bigEndian(bytes, at + 2, 2), next = at + 2 + length;
    if (isFrameHeader(marker))
      file.size = {int(bigEndian(bytes, at + 7, 2)), int(bigEndian(bytes, at + 5, 2))};
    if (marker == 0xE1 && holdsAt(bytes, at + 4, "Exif") && file.exif.empty())
      file.exif = exifBlock(bytes, at + 4, next);
    at = marker == 0xDA ? endOfScan(bytes, next) : next;
    if (at + 1 < bytes.size() && bytes[at] == 0xFF && bytes[at + 1] == 0xD9) {
      file.whole = true;
      return file;
    }
  }
  return file;
}

PictureFile inspectPng(const Bytes& bytes) {
  PictureFile file;
  file.kind = PictureKind::png;
  file.size = {int(bigEndian(bytes, 16, 4)), int(bigEndian(bytes, 20, 4))};
  for (size_t at = 8; at + 12 <= bytes.size();) {
    const size_t length = bigEndian(bytes, at, 4), next = at + 12 + length;
    if (next > bytes.size()) break;
    if (holdsAt(bytes, at + 4, "eXIf")) file.exif = exifBlock(bytes, at + 8, at + 8 + length);
    if (holdsAt(bytes, at + 4, "IEND")) file.whole = true;
    at = next;
  }
  return file;
}

PictureFile inspectWebp(const Bytes& bytes) {
  PictureFile file;
  file.kind = PictureKind::webp;
  file.whole = littleEndian(bytes, 4, 4) + size_t(8) <= bytes.size();
  for (size_t at = 12; at + 8 <= bytes.size();) {
    const size_t length = littleEndian(bytes, at + 4, 4), data = at + 8;
    if (holdsAt(bytes, at, "VP8X"))
      file.size = {int(littleEndian(bytes, data + 4, 3) + 1),
                   int(littleEndian(bytes, data + 7, 3) + 1)};
    else if (holdsAt(bytes, at, "VP8 ") && file.size.empty())
      file.size = {int(littleEndian(bytes, data + 6, 2) & 0x3FFF),
                   int(littleEndian(bytes, data + 8, 2) & 0x3FFF)};
    else if (holdsAt(bytes, at, "VP8L") && file.size.empty()) {
      const uint32_t packed = littleEndian(bytes, data + 1, 4);
      file.size = {int((packed & 0x3FFF) + 1), int((packed >> 14 & 0x3FFF) + 1)};
    } else if (holdsAt(bytes, at, "EXIF")) {
      file.exif = exifBlock(bytes, data, data + length);
    }
    at = data + length + length % 2;
  }
  return file;
}

std::optional<PictureFile> inspectPicture(const Bytes& bytes) {
  if (holdsAt(bytes, 0, "\xFF\xD8\xFF")) return inspectJpeg(bytes);
  if (holdsAt(bytes, 0, "\x89PNG\r\n\x1A\n")) return inspectPng(bytes);
  if (holdsAt(bytes, 0, "RIFF") && holdsAt(bytes, 8, "WEBP")) return inspectWebp(bytes);
  if (holdsAt(bytes, 4, "ftyp"))
    for (std::string_view brand : {"heic", "heix", "mif1", "heim", "heis", "msf1"})
      if (holdsAt(bytes, 8, brand)) return inspectHeif(bytes);
  return std::nullopt;
}

}  // namespace rackside
