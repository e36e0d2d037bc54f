// SPDX-License-Identifier: GPL-3.0-or-later
// What the edits say when the object they name is gone.
#pragma once

#include "core/document/rack.h"

namespace rackside {

inline Error boardIsGone() {
  return Error{"The board is no longer in the rack; nothing was changed."};
}
inline Error markIsGone() {
  return Error{"The mark is no longer on the board; nothing was changed."};
}

// For revert(): the board that apply() found is there, unless someone went past the history.
inline Board& needBoard(Rack& rack, const BoardId& id) {
  Board* board = rack.findBoard(id);
  if (!board) throw std::logic_error("the rack was changed past its history");
  return *board;
}

}  // namespace rackside
