// SPDX-License-Identifier: GPL-3.0-or-later
// The lists under a board's drawing.
#pragma once

#include "app/sheets/page.h"

namespace rackside::sheets {

// `size` scales text and rows: 1 is read at arm's length; a little less may save a page.
std::vector<FlowRow> cutRows(const BoardWork& work, double widthMm, double size);
std::vector<FlowRow> pieceRows(const PackInput& input, const BoardWork& work, const Board& board,
                               double widthMm, double size);
// Swatches of the patterns on this board, with their words.
void drawLegend(Sheet& sheet, const QRectF& row, const Board& board);

}  // namespace rackside::sheets
