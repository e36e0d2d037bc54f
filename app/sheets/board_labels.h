// SPDX-License-Identifier: GPL-3.0-or-later
// Figures and words on a board's drawing, placed so that none covers another.
#pragma once

#include "app/sheets/board_drawing.h"

namespace rackside::sheets {

void drawLabels(Sheet& sheet, const Strip& strip, const Board& board, const BoardWork& work,
                const DrawingOptions& options);

}  // namespace rackside::sheets
