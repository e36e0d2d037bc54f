// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/page.h"

#include "core/trade/safety_words.h"

namespace rackside::sheets {

QRectF PackInput::area() const {
  return QRectF(QPointF(0, 0), pageMm())
      .adjusted(Sheet::kMarginMm, Sheet::kMarginMm, -Sheet::kMarginMm,
                -Sheet::kMarginMm - kFooterMm);
}

QString PackInput::length(double mm, bool withUnit) const {
  return QString::fromStdString(formatLength(mm, options.lengths, withUnit));
}

std::vector<std::vector<PlacedRow>> flow(const std::vector<FlowRow>& rows,
                                         const std::vector<QRectF>& first,
                                         const std::vector<QRectF>& next) {
  std::vector<std::vector<PlacedRow>> pages;
  const std::vector<QRectF>* columns = &first;
  size_t column = 0;
  double y = columns->empty() ? 0 : columns->front().top();
  pages.emplace_back();
  for (const FlowRow& row : rows) {
    while (column >= columns->size() || y + row.height > (*columns)[column].bottom() + 1e-6) {
      // A row taller than an empty rectangle stays there: it must go somewhere.
      const bool emptyNext =
          columns == &next && column < columns->size() && y == (*columns)[column].top();
      if (emptyNext) break;
      if (++column >= columns->size()) {
        columns = &next;
        column = 0;
        pages.emplace_back();
      }
      y = (*columns)[column].top();
    }
    const QRectF& c = (*columns)[column];
    pages.back().push_back({QRectF(c.left(), y, c.width(), row.height), &row});
    y += row.height;
  }
  return pages;
}

void drawPlainHeader(Sheet& sheet, const QString& title, const QString& subtitle) {
  const QRectF area = sheet.area();
  sheet.text(QRectF(area.left(), area.top(), area.width(), 9), title, {7, true, 4});
  sheet.text(QRectF(area.left(), area.top() + 9.5, area.width(), 5), subtitle, {3.6});
  sheet.line({area.left(), area.top() + 16}, {area.right(), area.top() + 16}, 0.5);
}

void drawFooter(Sheet& sheet, const QString& left, int page, int pages) {
  const QRectF area = sheet.area();
  const QRectF line(area.left(), area.bottom() - 4.5, area.width(), 4.5);
  const QString number = QString("page %1 of %2").arg(page).arg(pages);
  const double room = Sheet::textSize(number, {3}).width() + 4;
  sheet.text(line.adjusted(0, 0, -room, 0), left, {3});
  sheet.text(line, number, {3}, Qt::AlignRight | Qt::AlignVCenter);
}

QString sawCaution() {
  return QString::fromStdString(sawingCaution()) +
         " Figures are a program's: check each with a rule.";
}

QString millingCaution() {
  return QString::fromStdString(rackside::millingCaution()) +
         " Figures are a program's: check each with a rule before cutting.";
}

QString wordForBoard(const Board& board) {
  const QString name = QString::fromStdString(board.name);
  return board.tag ? "Board " + QString::number(*board.tag) : "Board " + name;
}

}  // namespace rackside::sheets
