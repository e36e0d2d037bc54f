// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/exif_writer.h"

#include <cmath>
#include <stdexcept>

namespace rackside::synthetic {
namespace {

// Field types of TIFF 6.0, section 2.
enum : uint16_t { kAscii = 2, kShort = 3, kLong = 4, kRational = 5 };

struct Field {
  uint16_t tag = 0;
  uint16_t type = 0;
  uint32_t count = 1;
  uint32_t value = 0;            // when it fits four bytes
  std::vector<uint8_t> outside;  // else
};

void put16(std::vector<uint8_t>& out, uint32_t v) {
  out.push_back(static_cast<uint8_t>(v & 255));
  out.push_back(static_cast<uint8_t>((v >> 8) & 255));
}

void put32(std::vector<uint8_t>& out, uint32_t v) {
  put16(out, v & 0xffff);
  put16(out, v >> 16);
}

Field text(uint16_t tag, const std::string& s) {
  Field f{tag, kAscii, static_cast<uint32_t>(s.size() + 1), 0, {}};
  f.outside.assign(s.begin(), s.end());
  f.outside.push_back(0);
  if (f.outside.size() <= 4) {
    for (size_t i = 0; i < f.outside.size(); ++i) {
      f.value |= static_cast<uint32_t>(f.outside[i]) << (8 * i);
    }
    f.outside.clear();
  }
  return f;
}

Field rational(uint16_t tag, double v) {
  Field f{tag, kRational, 1, 0, {}};
  put32(f.outside, static_cast<uint32_t>(std::lround(v * 1000)));
  put32(f.outside, 1000);
  return f;
}

// One directory at `start` (offset in the TIFF block), its values after it.
std::vector<uint8_t> directory(const std::vector<Field>& fields, uint32_t start) {
  std::vector<uint8_t> table, values;
  put16(table, static_cast<uint32_t>(fields.size()));
  const uint32_t valuesAt = start + 2 + 12 * static_cast<uint32_t>(fields.size()) + 4;
  for (const Field& f : fields) {
    put16(table, f.tag);
    put16(table, f.type);
    put32(table, f.count);
    put32(table, f.outside.empty() ? f.value : valuesAt + static_cast<uint32_t>(values.size()));
    values.insert(values.end(), f.outside.begin(), f.outside.end());
    if (values.size() % 2 == 1) values.push_back(0);
  }
  put32(table, 0);  // no further directory
  table.insert(table.end(), values.begin(), values.end());
  return table;
}

std::vector<uint8_t> tiffBlock(const ExifToWrite& e) {
  const uint32_t first = 8;
  const auto mainFields = [&](uint32_t exifAt) {
    return std::vector<Field>{text(0x010f, e.make),
                              text(0x0110, e.model),
                              {0x0112, kShort, 1, static_cast<uint32_t>(e.orientation), {}},
                              text(0x0132, e.dateTime),
                              {0x8769, kLong, 1, exifAt, {}}};
  };
  const uint32_t exifAt = first + static_cast<uint32_t>(directory(mainFields(0), first).size());
  std::vector<Field> exifFields{text(0x9003, e.dateTime)};
  if (e.focalMm > 0) exifFields.push_back(rational(0x920a, e.focalMm));
  if (e.focal35Mm > 0) {
    exifFields.push_back({0xa405, kShort, 1, static_cast<uint32_t>(e.focal35Mm), {}});
  }
  std::vector<uint8_t> out{'I', 'I', 42, 0};
  put32(out, first);
  for (const auto& part : {directory(mainFields(exifAt), first), directory(exifFields, exifAt)}) {
    out.insert(out.end(), part.begin(), part.end());
  }
  return out;
}

}  // namespace

std::vector<uint8_t> withExif(const std::vector<uint8_t>& jpeg, const ExifToWrite& exif) {
  if (jpeg.size() < 4 || jpeg[0] != 0xff || jpeg[1] != 0xd8) {
    throw std::logic_error("withExif wants the bytes of a JPEG");
  }
  const std::vector<uint8_t> tiff = tiffBlock(exif);
  const size_t length = 2 + 6 + tiff.size();
  std::vector<uint8_t> out{0xff,
                           0xd8,
                           0xff,
                           0xe1,
                           static_cast<uint8_t>(length >> 8),
                           static_cast<uint8_t>(length & 255),
                           'E',
                           'x',
                           'i',
                           'f',
                           0,
                           0};
  out.insert(out.end(), tiff.begin(), tiff.end());
  out.insert(out.end(), jpeg.begin() + 2, jpeg.end());
  return out;
}

}  // namespace rackside::synthetic
