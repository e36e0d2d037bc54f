// SPDX-License-Identifier: GPL-3.0-or-later
// What a list says of a board, and what the board still lacks.
#pragma once

#include <QString>
#include <vector>

#include "core/document/rack.h"

namespace rackside {

struct BoardFacts {
  BoardId id;
  QString name;
  std::optional<int> tag;
  QString species;
  QString place;
  double lengthMm = 0;
  double widthMm = 0;  // as the tally takes it
  double thicknessMm = 0;
  double boardFeet = 0;
  int pieces = 0;  // of the plan
  QString state;   // "set aside (live insects)"; empty on the rack
};
BoardFacts boardFacts(const Rack& rack, const Board& board);
// Pieces of the plan on each board are counted once for the whole list.
std::vector<BoardFacts> rackFacts(const Rack& rack);

struct Lack {
  QString what;  // "thickness", as in "missing: thickness"
  QString toDo;  // one sentence
};
std::vector<Lack> lacksOf(const Board& board);

}  // namespace rackside
