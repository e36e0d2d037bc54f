// SPDX-License-Identifier: GPL-3.0-or-later
// One page a board: its face to scale, the cuts in working order, the pieces; a further page where
// the lists are long.
#include <QStringList>

#include "app/sheets/board_drawing.h"
#include "app/sheets/board_page_lists.h"
#include "app/sheets/page.h"

namespace rackside::sheets {
namespace {

constexpr double kCautionMm = 9;
constexpr double kLegendMm = 5.5;
constexpr double kScaleRowMm = 6.5;
constexpr double kGapMm = 2;
// Share of the page left for the drawing at most; the lists need the rest.
constexpr double kDrawingShare = 0.55;
// Ways that are tried to keep a board to one page; the last stands where none does.
struct Fit {
  double drawingShare, listSize;
};
constexpr Fit kFits[] = {{kDrawingShare, 1}, {kDrawingShare, 0.9}, {kDrawingShare, 0.82},
                         {0.42, 0.82},       {0.36, 0.74},         {0.3, 0.68},
                         {kDrawingShare, 1}};
// Finest detail worth sending to the printer: about 200 dots an inch.
constexpr double kPrintMmPerPx = 25.4 / 200;

struct BoardPage {
  std::shared_ptr<const PackInput> input;
  const Board& board;
  BoardWork work;
  StripLayout layout;
  std::vector<FlowRow> cutRows, pieceRows;
  std::vector<std::vector<PlacedRow>> cutPages, piecePages;
};

QRectF drawingRoom(const PackInput& input, double share) {
  const QRectF area = input.area();
  return {area.left(), area.top() + kHeaderMm, area.width(), area.height() * share};
}

QString headLine(const PackInput& input, const Board& b) {
  QStringList parts;
  if (!b.species.empty()) parts << QString::fromStdString(b.species);
  if (b.thicknessMm > 0) parts << "rough " + input.length(b.thicknessMm);
  const Rect box = bounds(b.outline.polygon());
  parts << input.length(b.lengthMm.value, false) + " × " + input.length(box.height()) + " over all";
  parts << (b.place.empty() ? QString("place on the rack: not noted")
                            : "place on the rack: " + QString::fromStdString(b.place));
  return parts.join("  ·  ");
}

QString unseenWords(const Board& b) {
  if (!b.seen(Face::A)) return "Face A was never photographed: look at it before cutting.";
  if (!b.seen(Face::B)) return "Face B was never photographed: look at it before cutting.";
  return {};
}

void drawHeader(Sheet& sheet, const BoardPage& page, bool continued) {
  const QRectF area = sheet.area();
  const Board& b = page.board;
  const QString number = b.tag ? QString::number(*b.tag) : QString::fromStdString(b.name);
  const double plate = 20;
  sheet.box(QRectF(area.left(), area.top(), plate, 15), 0, Qt::black);
  sheet.text(QRectF(area.left() + 1, area.top(), plate - 2, 15), number, {11, true, 3, Qt::white},
             Qt::AlignCenter);
  const QRectF right(area.right() - 74, area.top(), 74, 15);
  const QRectF middle(area.left() + plate + 3, area.top(), right.left() - area.left() - plate - 6,
                      15);
  QString title = "Board " + QString::fromStdString(b.name);
  if (continued) title += " (continued)";
  sheet.text(QRectF(middle.left(), middle.top(), middle.width(), 8.5), title, {6.6, true, 3.5});
  sheet.text(QRectF(middle.left(), middle.top() + 9, middle.width(), 5.5), headLine(*page.input, b),
             {3.8});
  if (continued) return;
  const QString scale = "Face A up, drawn 1 : " + QString::number(page.layout.denominator);
  sheet.text(QRectF(right.left(), right.top(), right.width(), 6), scale, {3.8, true},
             Qt::AlignRight | Qt::AlignVCenter);
  if (const QString unseen = unseenWords(b); !unseen.isEmpty())
    sheet.paragraph(QRectF(right.left() + 8, right.top() + 6.4, right.width() - 8, 9), unseen,
                    {3.2, true, 2.6});
}

void drawScaleRow(Sheet& sheet, const BoardPage& page, double top) {
  const QRectF area = sheet.area();
  const double used = drawScaleBar(sheet, {area.left(), top + kScaleRowMm / 2},
                                   1 / page.layout.denominator, 60, page.input->options.lengths);
  const QString words =
      "Left end left, near edge below. Distances over the drawing run from the fresh end. Saw "
      "just past each line, away from where you measured.";
  sheet.text(QRectF(area.left() + used + 6, top, area.width() - used - 6, kScaleRowMm), words,
             {3.2}, Qt::AlignRight | Qt::AlignVCenter);
}

void drawFirst(Sheet& sheet, const BoardPage& page) {
  const PackInput& input = *page.input;
  drawHeader(sheet, page, false);
  const auto picture =
      readFacePicture(page.board, Face::A, input.folder, kPrintMmPerPx * page.layout.denominator);
  for (const Strip& strip : page.layout.strips)
    drawBoard(sheet, strip, page.board, page.work, picture ? &*picture : nullptr,
              {Face::A, input.options.lengths});
  const QRectF area = input.area();
  drawScaleRow(sheet, page, area.top() + kHeaderMm + page.layout.heightMm);
  drawLegend(sheet,
             QRectF(area.left(), area.bottom() - kCautionMm - kLegendMm, area.width(), kLegendMm),
             page.board);
  sheet.paragraph(
      QRectF(area.left(), area.bottom() - kCautionMm + 0.6, area.width(), kCautionMm - 0.6),
      sawCaution(), {2.9, false, 2.4});
}

void drawRows(Sheet& sheet, const std::vector<std::vector<PlacedRow>>& pages, size_t index) {
  if (index >= pages.size()) return;
  for (const PlacedRow& placed : pages[index]) placed.row->draw(sheet, placed.where);
}

// Cuts take three fifths of the width, pieces the rest.
QRectF cutColumn(const QRectF& r) {
  return {r.left(), r.top(), r.width() * 0.58, r.height()};
}
QRectF pieceColumn(const QRectF& r) {
  return {r.left() + r.width() * 0.58 + 5, r.top(), r.width() * 0.42 - 5, r.height()};
}

std::shared_ptr<BoardPage> prepare(const std::shared_ptr<const PackInput>& input, size_t index) {
  const Board& board = input->rack.boards[index];
  auto page =
      std::make_shared<BoardPage>(BoardPage{input, board, input->works[index], {}, {}, {}, {}, {}});
  const QRectF area = input->area(), whole = area.adjusted(0, kHeaderMm, 0, 0);
  for (const auto& [share, size] : kFits) {
    const QRectF room = drawingRoom(*input, share);
    page->layout = layOutWithLabels(board, page->work, room, {Face::A, input->options.lengths});
    QRectF lists = area;
    lists.setTop(room.top() + page->layout.heightMm + kScaleRowMm + kGapMm);
    lists.setBottom(area.bottom() - kCautionMm - kLegendMm - 1);
    page->cutRows = cutRows(page->work, cutColumn(area).width(), size);
    page->pieceRows = pieceRows(*input, page->work, board, pieceColumn(area).width(), size);
    page->cutPages = flow(page->cutRows, {cutColumn(lists)}, {cutColumn(whole)});
    page->piecePages = flow(page->pieceRows, {pieceColumn(lists)}, {pieceColumn(whole)});
    if (page->cutPages.size() == 1 && page->piecePages.size() == 1) break;
  }
  return page;
}

}  // namespace

std::vector<Page> boardPages(const std::shared_ptr<const PackInput>& input) {
  std::vector<Page> pages;
  for (size_t b = 0; b < input->works.size(); ++b) {
    const Board& board = input->rack.boards[b];
    if (board.outline.vertices.size() < 3) continue;
    const bool asked = board.id == input->options.onlyBoard;
    if (!input->options.onlyBoard.empty() && !asked) continue;
    if (input->rack.plan && input->works[b].steps.empty() && !asked) continue;
    auto page = prepare(input, b);
    const size_t count = std::max(page->cutPages.size(), page->piecePages.size());
    for (size_t i = 0; i < count; ++i)
      pages.push_back({wordForBoard(board), [page, i](Sheet& sheet) {
                         if (i == 0) {
                           drawFirst(sheet, *page);
                         } else {
                           drawHeader(sheet, *page, true);
                         }
                         drawRows(sheet, page->cutPages, i);
                         drawRows(sheet, page->piecePages, i);
                       }});
  }
  return pages;
}

}  // namespace rackside::sheets
