// SPDX-License-Identifier: GPL-3.0-or-later
// The end labels on plain paper, to cut out.
#include "app/sheets/piece_label.h"

namespace rackside::sheets {
namespace {

constexpr double kGutterMm = 3;

}  // namespace

std::vector<Page> labelPages(const std::shared_ptr<const PackInput>& input) {
  const auto labels = std::make_shared<const std::vector<PieceLabel>>(
      pieceLabels(input->rack, input->options.lengths));
  const QRectF body = input->area().adjusted(0, kHeaderMm, 0, 0);
  const int columns = int((body.width() + kGutterMm) / (kLabelWidthMm + kGutterMm));
  const int rows = int((body.height() + kGutterMm) / (kLabelHeightMm + kGutterMm));
  const size_t perPage = size_t(columns) * size_t(rows);
  std::vector<Page> pages;
  for (size_t first = 0; first < labels->size(); first += perPage)
    pages.push_back({"Labels", [=](Sheet& sheet) {
                       drawPlainHeader(sheet, "End labels",
                                       "Cut out and glue or staple to the end named. Write a new "
                                       "one when the end is cut off.");
                       for (size_t i = first; i < std::min(labels->size(), first + perPage); ++i) {
                         const int column = int(i - first) % columns;
                         const int row = int(i - first) / columns;
                         drawPieceLabel(sheet,
                                        QRectF(body.left() + column * (kLabelWidthMm + kGutterMm),
                                               body.top() + row * (kLabelHeightMm + kGutterMm),
                                               kLabelWidthMm, kLabelHeightMm),
                                        (*labels)[i]);
                       }
                     }});
  return pages;
}

}  // namespace rackside::sheets
