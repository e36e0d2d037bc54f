// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/board_shapes.h"

#include <algorithm>
#include <map>

#include "app/sheets/board_work.h"

namespace rackside::sheets {
namespace {

std::vector<Layer> markLayers(const Board& board) {
  std::map<std::string, Layer> byName;
  for (const Mark& mark : board.marks)
    for (const Face face : {Face::A, Face::B}) {
      if (!mark.on(face) || !mark.confirmed) continue;
      const std::string layer =
          "mark-" + std::string(name(mark.kind)) + (face == Face::A ? "-a" : "-b");
      byName[layer].name = layer;
      for (Polygon& p : polygonsOf(*mark.on(face))) byName[layer].closed.push_back(std::move(p));
    }
  std::vector<Layer> layers;
  layers.reserve(byName.size());
  for (auto& [key, layer] : byName) layers.push_back(std::move(layer));
  return layers;
}

double textHeight(const Polygon& shape) {
  return std::clamp(bounds(shape).height() / 3, 3.0, 20.0);
}

}  // namespace

std::vector<Layer> boardLayers(const Rack& rack, const Board& board) {
  std::vector<Layer> layers{{"outline", {board.outline.polygon()}, {}, {}}};
  for (Layer& l : markLayers(board)) layers.push_back(std::move(l));
  if (!rack.plan) return layers;
  Layer rough{"rough", {}, {}, {}}, pieces{"pieces", {}, {}, {}}, cuts{"cuts", {}, {}, {}};
  for (const Blank& b : rack.plan->blanks)
    if (b.board == board.id) rough.closed.push_back(b.roughOutline());
  for (const PieceLine& line : boardWork(rack, board, rack.shop.show).pieces) {
    const Rect box = bounds(line.piece->outline);
    pieces.closed.push_back(line.piece->outline);
    pieces.texts.push_back({{box.x0 + 5, box.y0 + box.height() / 3},
                            textHeight(line.piece->outline),
                            line.code + " " + line.title()});
  }
  for (const Cut& c : rack.plan->cuts) {
    if (c.board != board.id) continue;
    cuts.lines.push_back(c.line);
    cuts.texts.push_back({c.line.from, 10, std::to_string(c.order)});
  }
  for (Layer* l : {&rough, &pieces, &cuts})
    if (!l->closed.empty() || !l->lines.empty()) layers.push_back(std::move(*l));
  return layers;
}

}  // namespace rackside::sheets
