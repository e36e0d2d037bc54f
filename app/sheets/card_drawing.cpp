// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/card_drawing.h"

#include <QFontMetricsF>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace rackside::sheets {
namespace {

const QColor kCutColour(150, 150, 150);
constexpr double kCutLineMm = 0.12;
constexpr double kTickMm = 5;

// A card or tag with its lower left corner (y up) at `corner` of the page (y down).
struct Placed {
  QPointF corner;
  QRectF box(const Rect& mm) const {
    return {corner.x() + mm.x0, corner.y() - mm.y1, mm.width(), mm.height()};
  }
};

// All ink in one path: rectangles that touch leave no seam between them.
void fill(QPainter& painter, const Placed& at, const std::vector<Rect>& ink) {
  QPainterPath path;
  path.setFillRule(Qt::WindingFill);
  for (const Rect& mm : ink) path.addRect(at.box(mm));
  painter.fillPath(path, Qt::black);
}

void write(QPainter& painter, const Placed& at, const std::vector<PrintedText>& texts) {
  for (const PrintedText& text : texts)
    drawFitted(painter, at.box(text.box), QString::fromStdString(text.text));
}

void drawCardAt(QPainter& painter, int number, QPointF corner) {
  const CardModel card = cardModel(number);
  const Placed at{corner};
  fill(painter, at, card.ink);
  for (const CheckBar& bar : card.bars) fill(painter, at, bar.ink());
  write(painter, at, card.texts);
}

void drawTagAt(QPainter& painter, int number, QPointF corner) {
  const TagModel tag = tagModel(number);
  const Placed at{corner};
  fill(painter, at, tag.ink);
  write(painter, at, tag.texts);
}

// A block of `columns` × `rows` cells of one size, in the middle of the paper.
struct Grid {
  QSizeF cell;
  int columns = 1, rows = 1;
  QPointF origin;  // upper left
  Grid(QSizeF paper, QSizeF cellMm, int columnCount, int rowCount)
      : cell(cellMm),
        columns(columnCount),
        rows(rowCount),
        origin((paper.width() - columns * cell.width()) / 2,
               (paper.height() - rows * cell.height()) / 2) {}
  QPointF lowerLeft(int index) const {
    return origin + QPointF(index % columns * cell.width(), (index / columns + 1) * cell.height());
  }
  QRectF box() const { return {origin, QSizeF(columns * cell.width(), rows * cell.height())}; }
};

// Hairlines between the cells and ticks beyond them, so that a line is still seen at a
// straightedge.
void drawCutLines(QPainter& painter, const Grid& grid, int used) {
  const int rows = (used + grid.columns - 1) / grid.columns;
  const int columns = std::min(used, grid.columns);
  const QRectF box(grid.origin, QSizeF(columns * grid.cell.width(), rows * grid.cell.height()));
  painter.setPen(QPen(kCutColour, kCutLineMm));
  for (int r = 0; r <= rows; ++r) {
    const double y = box.top() + r * grid.cell.height();
    painter.drawLine(QPointF(box.left() - kTickMm, y), QPointF(box.right() + kTickMm, y));
  }
  for (int c = 0; c <= columns; ++c) {
    const double x = box.left() + c * grid.cell.width();
    painter.drawLine(QPointF(x, box.top() - kTickMm), QPointF(x, box.bottom() + kTickMm));
  }
}

Grid cardGrid(QSizeF paper) {
  const CardModel card = cardModel(1);
  const int rows = int((paper.height() - 8) / card.heightMm);
  return {paper, {card.lengthMm, card.heightMm}, 1, rows};
}

Grid tagGrid(QSizeF paper) {
  const TagModel tag = tagModel(1);
  const int columns = int((paper.width() - 16) / tag.sizeMm);
  const int rows = int((paper.height() - 24) / tag.heightMm);
  return {paper, {tag.sizeMm, tag.heightMm}, columns, rows};
}

const QString kCardHowTo = QStringLiteral(
    "Reference cards. Print at 100 % (actual size) on matt paper. Lay a rule on both bars.");
const QString kCardHowTo2 = QStringLiteral(
    "Glue on flat, stiff stock; cut along the grey lines. Lay one near each end and one midway.");

// Along the left margin, read from the right side of the sheet.
void drawCardHowTo(QPainter& painter, const MarkerPage& page, const Grid& grid) {
  painter.save();
  painter.translate(grid.origin.x() - kTickMm - 1.5, page.paperMm.height() / 2);
  painter.rotate(-90);
  const double length = grid.box().height() * 0.9;
  drawFitted(painter, {-length / 2, -8, length, 3.4}, kCardHowTo);
  drawFitted(painter, {-length / 2, -4, length, 3.4}, kCardHowTo2);
  painter.restore();
}

void drawTagHowTo(QPainter& painter, const MarkerPage& page, const Grid& grid) {
  const QString range =
      QStringLiteral("Board tags %1 to %2. ").arg(page.tags.front()).arg(page.tags.back());
  const QString text =
      range + QStringLiteral(
                  "Print at 100 % (actual size): the black square is 32 mm (1.26 in). "
                  "One tag stays on one board.");
  drawFitted(painter, {grid.box().left(), grid.origin.y() - kTickMm - 4.2, grid.box().width(), 3.6},
             text);
}

template <class Cell>
std::vector<MarkerPage> paged(const MarkerPage& blank, int first, int last, int perPage,
                              Cell MarkerPage::*list) {
  std::vector<MarkerPage> pages;
  for (int number = first; number <= last; ++number) {
    if ((number - first) % perPage == 0) pages.push_back(blank);
    (pages.back().*list).push_back(number);
  }
  return pages;
}

}  // namespace

void drawFitted(QPainter& painter, const QRectF& box, const QString& text, bool bold) {
  QFont font(QStringLiteral("DejaVu Sans"));
  font.setPixelSize(100);
  font.setBold(bold);
  const QFontMetricsF metrics(font);
  const QRectF ink = metrics.tightBoundingRect(text);
  const double high = metrics.capHeight() + (ink.bottom() > 2 ? metrics.descent() : 0);
  const double scale = std::min(box.width() / metrics.horizontalAdvance(text), box.height() / high);
  painter.save();
  painter.translate(box.center().x(),
                    box.center().y() - scale * high / 2 + scale * metrics.capHeight());
  painter.scale(scale, scale);
  painter.setFont(font);
  painter.setPen(Qt::black);
  painter.drawText(QPointF(-metrics.horizontalAdvance(text) / 2, 0), text);
  painter.restore();
}

std::vector<MarkerPage> pagesOf(const CardOptions& options) {
  MarkerPage blank;
  blank.landscape = true;
  blank.paperMm = paperSizeMm(options.paper, true);
  return paged(blank, options.firstNumber, options.firstNumber + options.count - 1,
               cardGrid(blank.paperMm).rows, &MarkerPage::cards);
}

std::vector<MarkerPage> pagesOf(const TagOptions& options) {
  MarkerPage blank;
  blank.paperMm = paperSizeMm(options.paper, false);
  const Grid grid = tagGrid(blank.paperMm);
  return paged(blank, options.firstNumber, options.lastNumber, grid.columns * grid.rows,
               &MarkerPage::tags);
}

MarkerPage cardAlone(int number) {
  const CardModel card = cardModel(number);
  return {false, QSizeF(card.lengthMm, card.heightMm), {number}, {}, true};
}

MarkerPage tagAlone(int number) {
  const TagModel tag = tagModel(number);
  return {false, QSizeF(tag.sizeMm, tag.heightMm), {}, {number}, true};
}

void drawMarkerPage(QPainter& painter, const MarkerPage& page) {
  if (page.alone) {
    const QPointF lowerLeft(0, page.paperMm.height());
    for (const int number : page.cards) drawCardAt(painter, number, lowerLeft);
    for (const int number : page.tags) drawTagAt(painter, number, lowerLeft);
    return;
  }
  painter.setRenderHint(QPainter::Antialiasing);
  if (!page.cards.empty()) {
    const Grid grid = cardGrid(page.paperMm);
    drawCutLines(painter, grid, int(page.cards.size()));
    for (size_t i = 0; i < page.cards.size(); ++i)
      drawCardAt(painter, page.cards[i], grid.lowerLeft(int(i)));
    drawCardHowTo(painter, page, grid);
  }
  if (!page.tags.empty()) {
    const Grid grid = tagGrid(page.paperMm);
    drawCutLines(painter, grid, int(page.tags.size()));
    for (size_t i = 0; i < page.tags.size(); ++i)
      drawTagAt(painter, page.tags[i], grid.lowerLeft(int(i)));
    drawTagHowTo(painter, page, grid);
  }
}

}  // namespace rackside::sheets
