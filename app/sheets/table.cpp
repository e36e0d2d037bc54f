// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/table.h"

#include <numeric>

namespace rackside::sheets {
namespace {

const TextLook kCell{3.6, false, 2.6};
const TextLook kColumnHead{3.4, true, 2.6};
constexpr double kHeadMm = 6;
constexpr double kFootMm = 9;
constexpr double kGapMm = 4;

std::vector<QRectF> cellsOf(const Table& table, const QRectF& row) {
  const double shares = std::accumulate(table.columns.begin(), table.columns.end(), 0.0,
                                        [](double s, const Column& c) { return s + c.share; });
  std::vector<QRectF> cells;
  double x = row.left();
  for (const Column& c : table.columns) {
    const double width = row.width() * c.share / shares;
    cells.emplace_back(x, row.top(), width - kGapMm, row.height());
    x += width;
  }
  return cells;
}

double rowHeight(const Table& table, const std::vector<QString>& row, double width) {
  const auto cells = cellsOf(table, QRectF(0, 0, width, 1));
  double height = 0;
  for (size_t i = 0; i < row.size(); ++i)
    height = std::max(height, Sheet::paragraphHeight(cells[i].width(), row[i], kCell));
  return height + 1.6;
}

void drawRow(Sheet& sheet, const Table& table, const std::vector<QString>& row, const QRectF& r) {
  const auto cells = cellsOf(table, r);
  for (size_t i = 0; i < row.size(); ++i) {
    const QRectF cell = cells[i].adjusted(0, 0.8, 0, 0);
    if (table.columns[i].right) {
      sheet.text(QRectF(cell.left(), cell.top(), cell.width(), Sheet::lineHeight(kCell)), row[i],
                 kCell, Qt::AlignRight | Qt::AlignVCenter);
    } else {
      sheet.paragraph(cell, row[i], kCell);
    }
  }
  sheet.line(r.bottomLeft(), r.bottomRight(), 0.12, Qt::darkGray);
}

void drawHead(Sheet& sheet, const Table& table, const QRectF& r) {
  const auto cells = cellsOf(table, r);
  for (size_t i = 0; i < cells.size(); ++i)
    sheet.text(cells[i], table.columns[i].head, kColumnHead,
               (table.columns[i].right ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  sheet.line(r.bottomLeft(), r.bottomRight(), 0.4);
}

}  // namespace

std::vector<Page> tablePages(std::shared_ptr<const PackInput> input, Table given) {
  struct Laid {
    Table table;
    std::vector<FlowRow> rows;
    std::vector<std::vector<PlacedRow>> pages;
  };
  auto laid = std::make_shared<Laid>();
  laid->table = std::move(given);
  const Table& table = laid->table;
  const QRectF area = input->area();
  for (const auto& row : table.rows)
    laid->rows.push_back(
        {rowHeight(table, row, area.width()),
         [&table, &row](Sheet& s, const QRectF& r) { drawRow(s, table, row, r); }});
  const QRectF body = area.adjusted(0, kHeaderMm + kHeadMm, 0, table.foot.isEmpty() ? 0 : -kFootMm);
  laid->pages = flow(laid->rows, {body}, {body});
  std::vector<Page> pages;
  for (size_t i = 0; i < laid->pages.size(); ++i)
    pages.push_back(
        {table.title, [laid, area, i](Sheet& sheet) {
           const Table& t = laid->table;
           drawPlainHeader(sheet, i == 0 ? t.title : t.title + " (continued)", t.subtitle);
           drawHead(sheet, t,
                    QRectF(area.left(), area.top() + kHeaderMm - 2, area.width(), kHeadMm));
           for (const PlacedRow& p : laid->pages[i]) p.row->draw(sheet, p.where);
           if (!t.foot.isEmpty())
             sheet.paragraph(
                 QRectF(area.left(), area.bottom() - kFootMm + 1, area.width(), kFootMm - 1),
                 t.foot, {2.9, false, 2.4});
         }});
  return pages;
}

}  // namespace rackside::sheets
