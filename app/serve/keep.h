// SPDX-License-Identifier: GPL-3.0-or-later
// From a measured job to the board on the rack.
#pragma once

#include "app/serve/phone_job.h"
#include "core/document/edit.h"

namespace rackside::serve {

struct Kept {
  Board board;  // as it goes onto the rack
  bool isNew = true;
};

// The board that keeping makes, laid on the rack as it is now: a board that is there may have been
// marked since it was measured, so only what was measured is taken. Ids and file names are made
// here and never taken from a worker. `stale`: the rack has changed so that the job has to be
// measured again.
Result<Kept> keptBoard(const Rack& rack, const PhoneJob& job, bool& stale);

std::unique_ptr<Edit> keepEdit(const Kept& kept);

// What the maker said, put onto a board.
void putWords(Board& board, const BoardWords& words);

}  // namespace rackside::serve
