// SPDX-License-Identifier: GPL-3.0-or-later
// A board with its plan as plain shapes on named layers, in board millimetres (y up): what the SVG
// and DXF writers write.
#pragma once

#include <string>
#include <vector>

#include "core/document/rack.h"

namespace rackside::sheets {

struct LayerText {
  Point at;  // left end of the base line
  double heightMm = 10;
  std::string text;
};

struct Layer {
  std::string name;  // "outline", "mark-knot-a", "pieces", …: letters, digits and dashes
  Polygons closed;
  std::vector<Segment> lines;
  std::vector<LayerText> texts;
};

// Outline, marks by kind and face, rough pieces, finished pieces, cuts, names; empty layers are
// left out.
std::vector<Layer> boardLayers(const Rack& rack, const Board& board);

}  // namespace rackside::sheets
