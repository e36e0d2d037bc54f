// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/piece_label.h"

#include "app/sheets/qr.h"

namespace rackside::sheets {

std::vector<PieceLabel> pieceLabels(const Rack& rack, const LengthStyle& lengths) {
  std::vector<PieceLabel> labels;
  if (!rack.plan) return labels;
  for (const Board& board : rack.boards) {
    const BoardWork work = boardWork(rack, board, lengths);
    for (const PieceLine& line : work.pieces) {
      PieceLabel l;
      l.title = QString::fromStdString(line.title());
      l.from = wordForBoard(board) + ", piece " + QString::fromStdString(line.code) + ", " +
               (work.freshIsLeft ? "left" : "right") + " end";
      l.face = line.piece->showFace == Face::A ? "face A up: shows" : "face B up: shows";
      if (line.part && line.part->showing == Showing::none) l.face = "face A up";
      l.identity = line.piece->id.text;
      labels.push_back(std::move(l));
    }
  }
  return labels;
}

void drawPieceLabel(Sheet& sheet, const QRectF& r, const PieceLabel& label) {
  sheet.box(r, 0.15);
  const double code = 12.5;  // modules of half a millimetre, and four of them blank round it
  const bool coded =
      drawQr(sheet, QRectF(r.right() - code - 2.1, r.top() + (r.height() - code) / 2, code, code),
             label.identity);
  const QRectF text = r.adjusted(1.5, 0.9, coded ? -code - 4.3 : -1.5, -0.9);
  // A long name takes two lines.
  const bool oneLine = Sheet::textSize(label.title, {3.2, true}).width() <= text.width();
  if (oneLine) {
    sheet.text(QRectF(text.left(), text.top(), text.width(), 6.8), label.title, {4.4, true, 3.0});
  } else {
    sheet.paragraph(QRectF(text.left(), text.top(), text.width(), 7), label.title,
                    {2.7, true, 1.8});
  }
  sheet.text(QRectF(text.left(), text.top() + 7.4, text.width(), 4.2), label.from,
             {3.2, false, 2.0});
  sheet.text(QRectF(text.left(), text.top() + 11.8, text.width(), 4.2), label.face,
             {3.2, false, 2.0});
}

}  // namespace rackside::sheets
