// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/rack_names.h"

namespace rackside::command {

std::string boardName(const Rack& rack, const BoardId& id) {
  const Board* board = rack.findBoard(id);
  return board ? board->name : id.text;
}

std::string partName(const Rack& rack, const PartId& id) {
  const Part* part = rack.findPart(id);
  return part ? part->name : id.text;
}

std::string pieceName(const Rack& rack, const Piece& piece) {
  std::string text = partName(rack, piece.part) + " " + std::to_string(piece.copy);
  if (piece.kind == PieceKind::panelStrip) text += " strip " + std::to_string(piece.strip);
  return text;
}

}  // namespace rackside::command
