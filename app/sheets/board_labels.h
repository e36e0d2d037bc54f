// SPDX-License-Identifier: GPL-3.0-or-later
// Figures and words on a board's drawing, placed so that none covers another.
#pragma once

#include "app/sheets/board_drawing.h"
#include "app/sheets/strip_labels.h"

namespace rackside::sheets {

inline const TextLook kDimensionLook{3.6, true, 3.0};

void drawLabels(Sheet& sheet, const Strip& strip, const Board& board, const BoardWork& work,
                const DrawingOptions& options);

}  // namespace rackside::sheets
