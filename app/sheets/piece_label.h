// SPDX-License-Identifier: GPL-3.0-or-later
// Labels for the ends of the pieces: small enough for the end of a rough board, where jointer and
// planer do not reach them.
#pragma once

#include "app/sheets/page.h"

namespace rackside::sheets {

inline constexpr double kLabelWidthMm = 50, kLabelHeightMm = 18;

struct PieceLabel {
  QString title, from, face;
  std::string identity;  // in the code
};

// In the order of the boards; empty without a plan.
std::vector<PieceLabel> pieceLabels(const Rack& rack, const LengthStyle& lengths);

// Into a box of the label's size.
void drawPieceLabel(Sheet& sheet, const QRectF& box, const PieceLabel& label);

}  // namespace rackside::sheets
