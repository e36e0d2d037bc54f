// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cctype>
#include <cstdio>

#include "app/sheets/vector_files.h"
#include "core/base/number_text.h"

namespace rackside::sheets {
namespace {

// A DXF file is pairs of lines: a group code and its value.
class DxfText {
 public:
  void pair(int code, const std::string& value) {
    char head[16];
    std::snprintf(head, sizeof head, "%3d\r\n", code);
    text_ += head + value + "\r\n";
  }
  void pair(int code, double value) { pair(code, fixedText(value, 4)); }
  void flag(int code, int value) { pair(code, std::to_string(value)); }
  void point(Point p) {
    pair(10, p.x);
    pair(20, p.y);
    pair(30, 0.0);
  }
  std::string take() { return std::move(text_); }

 private:
  std::string text_;
};

// Release 12 wants capitals, digits, `-` and `_` in names of layers.
std::string layerName(const std::string& name) {
  std::string upper = name;
  std::transform(upper.begin(), upper.end(), upper.begin(),
                 [](unsigned char c) { return char(std::toupper(c)); });
  return upper;
}

// Of UTF-8; U+FFFD for what is none.
char32_t takeCharacter(std::string_view& s) {
  const auto byte = static_cast<unsigned char>(s.front());
  const size_t length = byte < 0x80    ? 1
                        : byte >= 0xF0 ? 4
                        : byte >= 0xE0 ? 3
                        : byte >= 0xC0 ? 2
                                       : 0;
  if (length == 0 || length > s.size()) {
    s.remove_prefix(1);
    return 0xFFFD;
  }
  char32_t c = length == 1 ? byte : byte & (0xFFU >> (length + 1));
  for (size_t i = 1; i < length; ++i) c = c << 6U | (static_cast<unsigned char>(s[i]) & 0x3FU);
  s.remove_prefix(length);
  return c;
}

// Release 12 has no encoding of its own: what is not ASCII is written as its programs escape it,
// \\U+ and four hexadecimal digits (the DXF reference).
std::string plain(std::string_view s) {
  std::string out;
  while (!s.empty()) {
    const char32_t c = takeCharacter(s);
    if (c >= 0x20 && c < 0x7f) {
      out += static_cast<char>(c);
    } else if (c >= 0x7f) {
      char escaped[12];
      std::snprintf(escaped, sizeof escaped, "\\U+%04X",
                    c > 0xFFFF ? 0xFFFDU : static_cast<unsigned>(c));
      out += escaped;
    }
  }
  return out;
}

void writeTables(DxfText& f, const std::vector<Layer>& layers) {
  f.pair(0, "SECTION");
  f.pair(2, "TABLES");
  f.pair(0, "TABLE");
  f.pair(2, "LTYPE");
  f.flag(70, 1);
  f.pair(0, "LTYPE");
  f.pair(2, "CONTINUOUS");
  f.flag(70, 0);
  f.pair(3, "Solid line");
  f.flag(72, 65);
  f.flag(73, 0);
  f.pair(40, 0.0);
  f.pair(0, "ENDTAB");
  f.pair(0, "TABLE");
  f.pair(2, "LAYER");
  f.flag(70, int(layers.size()));
  for (size_t i = 0; i < layers.size(); ++i) {
    f.pair(0, "LAYER");
    f.pair(2, layerName(layers[i].name));
    f.flag(70, 0);
    f.flag(62, int(i % 7) + 1);  // the seven basic colours by turns
    f.pair(6, "CONTINUOUS");
  }
  f.pair(0, "ENDTAB");
  f.pair(0, "ENDSEC");
}

void writePolygon(DxfText& f, const std::string& layer, const Polygon& p) {
  f.pair(0, "POLYLINE");
  f.pair(8, layer);
  f.flag(66, 1);  // vertices follow
  f.point({0, 0});
  f.flag(70, 1);  // closed
  for (const Point q : p) {
    f.pair(0, "VERTEX");
    f.pair(8, layer);
    f.point(q);
  }
  f.pair(0, "SEQEND");
  f.pair(8, layer);
}

void writeLine(DxfText& f, const std::string& layer, const Segment& s) {
  f.pair(0, "LINE");
  f.pair(8, layer);
  f.point(s.from);
  f.pair(11, s.to.x);
  f.pair(21, s.to.y);
  f.pair(31, 0.0);
}

void writeText(DxfText& f, const std::string& layer, const LayerText& t) {
  f.pair(0, "TEXT");
  f.pair(8, layer);
  f.point(t.at);
  f.pair(40, t.heightMm);
  f.pair(1, plain(t.text));
}

}  // namespace

std::string dxfText(const std::vector<Layer>& layers) {
  DxfText f;
  f.pair(999, "Lengths in millimetres");
  f.pair(0, "SECTION");
  f.pair(2, "HEADER");
  f.pair(9, "$ACADVER");
  f.pair(1, "AC1009");
  f.pair(0, "ENDSEC");
  writeTables(f, layers);
  f.pair(0, "SECTION");
  f.pair(2, "ENTITIES");
  for (const Layer& l : layers) {
    const std::string layer = layerName(l.name);
    for (const Polygon& p : l.closed) writePolygon(f, layer, p);
    for (const Segment& s : l.lines) writeLine(f, layer, s);
    for (const LayerText& t : l.texts) writeText(f, layer, t);
  }
  f.pair(0, "ENDSEC");
  f.pair(0, "EOF");
  return f.take();
}

}  // namespace rackside::sheets
