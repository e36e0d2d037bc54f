// SPDX-License-Identifier: GPL-3.0-or-later
// Labels for the ends of the pieces: small enough for the end of a rough board, where jointer and
// planer do not reach them.
#include "app/sheets/page.h"
#include "app/sheets/qr.h"

namespace rackside::sheets {
namespace {

constexpr double kLabelWidthMm = 50;
constexpr double kLabelHeightMm = 18;
constexpr double kGutterMm = 3;

struct Label {
  QString title, from, face;
  std::string identity;
};

std::vector<Label> labelsOf(const PackInput& in) {
  std::vector<Label> labels;
  for (const Board& board : in.rack.boards) {
    const BoardWork work = boardWork(in.rack, board, in.options.lengths);
    for (const PieceLine& line : work.pieces) {
      Label l;
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

void drawLabel(Sheet& sheet, const QRectF& r, const Label& label) {
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

}  // namespace

std::vector<Page> labelPages(const std::shared_ptr<const PackInput>& input) {
  auto labels = std::make_shared<std::vector<Label>>();
  if (input->rack.plan) *labels = labelsOf(*input);
  const QRectF body = input->area().adjusted(0, kHeaderMm, 0, 0);
  const int columns = int((body.width() + kGutterMm) / (kLabelWidthMm + kGutterMm));
  const int rows = int((body.height() + kGutterMm) / (kLabelHeightMm + kGutterMm));
  const size_t perPage = size_t(columns * rows);
  std::vector<Page> pages;
  for (size_t first = 0; first < labels->size(); first += perPage)
    pages.push_back({"Labels", [=](Sheet& sheet) {
                       drawPlainHeader(sheet, "End labels",
                                       "Cut out and glue or staple to the end named. Write a new "
                                       "one when the end is cut off.");
                       for (size_t i = first; i < std::min(labels->size(), first + perPage); ++i) {
                         const int n = int(i - first);
                         drawLabel(sheet,
                                   QRectF(body.left() + (n % columns) * (kLabelWidthMm + kGutterMm),
                                          body.top() + (n / columns) * (kLabelHeightMm + kGutterMm),
                                          kLabelWidthMm, kLabelHeightMm),
                                   (*labels)[i]);
                       }
                     }});
  return pages;
}

}  // namespace rackside::sheets
