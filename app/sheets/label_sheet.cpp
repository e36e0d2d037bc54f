// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/label_sheet.h"

#include "app/sheets/pdf_pages.h"

namespace rackside::sheets {

const std::vector<LabelSheet>& labelSheets() {
  static const std::vector<LabelSheet> sheets = {
      {"a4-24", Paper::a4, 3, 8, 70, 37, 0, 0.5, 70, 37},
      {"a4-21", Paper::a4, 3, 7, 63.5, 38.1, 7.25, 15.15, 66, 38.1},
      {"letter-30", Paper::letter, 3, 10, 66.675, 25.4, 4.7625, 12.7, 69.85, 25.4},
      {"letter-20", Paper::letter, 2, 10, 101.6, 25.4, 3.96875, 12.7, 106.3625, 25.4},
  };
  return sheets;
}

QRectF labelPlace(const LabelSheet& sheet, int index) {
  const int column = index % sheet.columns, row = index / sheet.columns;
  return {sheet.leftMm + column * sheet.stepXMm, sheet.topMm + row * sheet.stepYMm, sheet.widthMm,
          sheet.heightMm};
}

Result<std::string> labelSheetPdf(const Rack& rack, const LengthStyle& lengths,
                                  const LabelSheet& sheet, int used) {
  const int perSheet = sheet.columns * sheet.rows;
  if (used < 0 || used >= perSheet)
    return Error{"This sheet holds " + std::to_string(perSheet) +
                 " labels: say how many are used up, from 0 to " + std::to_string(perSheet - 1) +
                 "."};
  const std::vector<PieceLabel> labels = pieceLabels(rack, lengths);
  if (labels.empty()) return Error{"There are no labels to print: plan first (rackside plan)."};
  const int places = used + int(labels.size());
  std::vector<PagePainter> pages;
  for (int first = 0; first < places; first += perSheet)
    pages.push_back([&, first](QPainter& painter, double pxPerMm) {
      Sheet page(painter, paperSizeMm(sheet.paper, false), pxPerMm);
      for (int i = std::max(first, used); i < std::min(places, first + perSheet); ++i) {
        QRectF box(0, 0, kLabelWidthMm, kLabelHeightMm);
        box.moveCenter(labelPlace(sheet, i - first).center());
        drawPieceLabel(page, box, labels[size_t(i - used)]);
      }
    });
  return pdfOf(sheet.paper, false, "End labels", pages);
}

}  // namespace rackside::sheets
