// SPDX-License-Identifier: GPL-3.0-or-later
// The few boxes of a HEIF file that libheif 1.15 does not hand out: the turning of the primary
// item.
#include <string_view>

#include "vision/photo/picture_file.h"

namespace rackside {
namespace {

struct Box {
  std::string_view type;
  size_t begin = 0, end = 0;  // of the contents
};

// The boxes side by side in [from, to); stops at one that reaches beyond.
std::vector<Box> boxesIn(const Bytes& bytes, size_t from, size_t to) {
  std::vector<Box> boxes;
  while (from + 8 <= to) {
    size_t size = bigEndian(bytes, from, 4), header = 8;
    if (size == 1) {
      if (bigEndian(bytes, from + 8, 4) != 0) break;  // over 4 GB
      size = bigEndian(bytes, from + 12, 4);
      header = 16;
    } else if (size == 0) {
      size = to - from;
    }
    if (size < header || size > to - from) break;
    boxes.push_back(
        {{reinterpret_cast<const char*>(bytes.data()) + from + 4, 4}, from + header, from + size});
    from += size;
  }
  return boxes;
}

std::optional<Box> find(const std::vector<Box>& boxes, std::string_view type) {
  for (const Box& box : boxes)
    if (box.type == type) return box;
  return std::nullopt;
}

// ItemPropertyAssociation: the property indices (from 1) of an item, in order.
std::vector<size_t> propertiesOf(const Bytes& bytes, const Box& ipma, uint32_t item) {
  const uint32_t version = bigEndian(bytes, ipma.begin, 1),
                 flags = bigEndian(bytes, ipma.begin + 1, 3);
  const size_t idSize = version < 1 ? 2 : 4, indexSize = flags & 1 ? 2 : 1;
  const uint32_t mask = flags & 1 ? 0x7FFF : 0x7F;
  size_t at = ipma.begin + 8;
  for (uint32_t entry = bigEndian(bytes, ipma.begin + 4, 4); entry > 0 && at < ipma.end; --entry) {
    const uint32_t id = bigEndian(bytes, at, idSize), count = bigEndian(bytes, at + idSize, 1);
    at += idSize + 1;
    std::vector<size_t> indices;
    for (uint32_t i = 0; i < count && at < ipma.end; ++i, at += indexSize)
      indices.push_back(bigEndian(bytes, at, indexSize) & mask);
    if (id == item) return indices;
  }
  return {};
}

// shown = m · sensor for points about the middle, x right and y down; the eight EXIF orientations
// are the eight matrices of this kind.
using Turn = cv::Matx<int, 2, 2>;

int orientationOf(const Turn& turn) {
  const Turn known[8] = {{1, 0, 0, 1}, {-1, 0, 0, 1}, {-1, 0, 0, -1}, {1, 0, 0, -1},
                         {0, 1, 1, 0}, {0, -1, 1, 0}, {0, -1, -1, 0}, {0, 1, -1, 0}};
  for (int i = 0; i < 8; ++i)
    if (turn == known[i]) return i + 1;
  return 1;
}

std::optional<int> turningOf(const Bytes& bytes, const Box& iprp, uint32_t item) {
  const auto inside = boxesIn(bytes, iprp.begin, iprp.end);
  const auto ipco = find(inside, "ipco"), ipma = find(inside, "ipma");
  if (!ipco || !ipma) return std::nullopt;
  const auto properties = boxesIn(bytes, ipco->begin, ipco->end);
  Turn turn(1, 0, 0, 1);
  bool turned = false;
  for (size_t index : propertiesOf(bytes, *ipma, item)) {
    if (index < 1 || index > properties.size()) continue;
    const Box& property = properties[index - 1];
    const uint32_t value = bigEndian(bytes, property.begin, 1);
    turned = turned || property.type == "irot" || property.type == "imir";
    if (property.type == "irot")  // a quarter turn anticlockwise: (x, y) shown at (y, −x)
      for (uint32_t i = 0; i < (value & 3); ++i) turn = Turn(0, 1, -1, 0) * turn;
    if (property.type == "imir")  // axis 0: left and right change places
      turn = (value & 1 ? Turn(1, 0, 0, -1) : Turn(-1, 0, 0, 1)) * turn;
  }
  return turned ? std::optional(orientationOf(turn)) : std::nullopt;
}

}  // namespace

PictureFile inspectHeif(const Bytes& bytes) {
  PictureFile file;
  file.kind = PictureKind::heic;
  const auto top = boxesIn(bytes, 0, bytes.size());
  file.whole = !top.empty() && top.back().end == bytes.size();
  const auto meta = find(top, "meta");
  if (!meta) return file;
  const auto inside = boxesIn(bytes, meta->begin + 4, meta->end);  // a full box: version and flags
  const auto pitm = find(inside, "pitm"), iprp = find(inside, "iprp");
  if (!pitm || !iprp) return file;
  const size_t idSize = bigEndian(bytes, pitm->begin, 1) == 0 ? 2 : 4;
  file.turning = turningOf(bytes, *iprp, bigEndian(bytes, pitm->begin + 4, idSize));
  return file;
}

}  // namespace rackside
