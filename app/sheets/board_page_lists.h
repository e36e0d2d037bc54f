// SPDX-License-Identifier: GPL-3.0-or-later
// The lists under a board's drawing.
#pragma once

#include "app/sheets/page.h"

namespace rackside::sheets {

std::vector<FlowRow> cutRows(const PackInput& input, const BoardWork& work, double widthMm);
std::vector<FlowRow> pieceRows(const PackInput& input, const BoardWork& work, const Board& board,
                               double widthMm);
// Swatches of the patterns on this board, with their words.
void drawLegend(Sheet& sheet, const QRectF& row, const Board& board);

}  // namespace rackside::sheets
