// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/table.h"

#include <numeric>

namespace rackside::sheets {
namespace {

const TextLook kCell{3.6, false, 2.6};
const TextLook kColumnHead{3.4, true, 2.6};
const TextLook kFoot{2.9, false, 2.4};
constexpr double kHeadMm = 6;
constexpr double kGapMm = 4;
constexpr double kSectionMm = 16;  // title and subtitle of a table below another

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
    height = std::max(height, table.columns[i].right
                                  ? Sheet::lineHeight(kCell)
                                  : Sheet::paragraphHeight(cells[i].width(), row[i], kCell));
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

// One table's share of a page.
struct Block {
  const Table* table = nullptr;
  QRectF title;  // empty at the top of a page, whose header says it
  QRectF head;
  std::vector<PlacedRow> rows;
  QString carried;  // the first cell that the first row belongs to
};

struct TablePage {
  bool continued = false;
  std::vector<Block> blocks;
};

struct Laid {
  std::vector<Table> tables;
  std::vector<std::vector<FlowRow>> rows;  // a list a table
  QRectF area;
  std::vector<TablePage> pages;
};

double footHeight(const Table& table, double width) {
  return table.foot.isEmpty() ? 0 : Sheet::paragraphHeight(width, table.foot, kFoot) + 2;
}

// What the first row of a page belongs to when that began on the page before: its name alone, for a
// single row has room for no more.
QString carriedCell(const Table& table, size_t firstRow) {
  if (!table.carryFirstCell || !table.rows[firstRow].front().isEmpty()) return {};
  size_t row = firstRow;
  while (row > 0 && table.rows[row].front().isEmpty()) --row;
  return table.rows[row].front().section(QChar(':'), 0, 0);
}

void addRows(Laid& laid) {
  for (const Table& table : laid.tables) {
    std::vector<FlowRow>& rows = laid.rows.emplace_back();
    for (const auto& row : table.rows)
      rows.push_back({rowHeight(table, row, laid.area.width()),
                      [&table, &row](Sheet& s, const QRectF& r) { drawRow(s, table, row, r); }});
  }
}

void startPages(Laid& laid, size_t index) {
  const Table& table = laid.tables[index];
  const QRectF& area = laid.area;
  const QRectF body = area.adjusted(0, kHeaderMm + kHeadMm, 0, -footHeight(table, area.width()));
  const QRectF head(area.left(), area.top() + kHeaderMm - 2, area.width(), kHeadMm);
  size_t row = 0;
  for (auto& rows : flow(laid.rows[index], {body}, {body})) {
    const QString carried = carriedCell(table, row);
    row += rows.size();
    laid.pages.push_back({row > rows.size(), {{&table, {}, head, std::move(rows), carried}}});
  }
}

// Below what the last page holds, when it all fits there.
bool joinLastPage(Laid& laid, size_t index) {
  if (laid.pages.empty()) return false;
  const Table& table = laid.tables[index];
  TablePage& page = laid.pages.back();
  if (page.blocks.front().table->foot != table.foot) return false;
  const double top = page.blocks.back().rows.back().where.bottom() + kGapMm;
  const QRectF title(laid.area.left(), top, laid.area.width(), kSectionMm);
  const QRectF head(title.left(), title.bottom(), title.width(), kHeadMm);
  const QRectF body(head.left(), head.bottom(), head.width(),
                    laid.area.bottom() - footHeight(table, head.width()) - head.bottom());
  auto pages = flow(laid.rows[index], {body}, {body});
  const bool fits = pages.size() == 1 && !pages.front().empty() &&
                    pages.front().back().where.bottom() <= body.bottom() + 1e-6;
  if (fits) page.blocks.push_back({&table, title, head, std::move(pages.front()), {}});
  return fits;
}

void drawBlock(Sheet& sheet, const Block& block) {
  if (!block.title.isEmpty()) {
    sheet.text(QRectF(block.title.left(), block.title.top() + 2, block.title.width(), 7),
               block.table->title, {5, true, 4});
    sheet.text(QRectF(block.title.left(), block.title.top() + 9.5, block.title.width(), 5),
               block.table->subtitle, {3.6});
  }
  drawHead(sheet, *block.table, block.head);
  for (const PlacedRow& p : block.rows) p.row->draw(sheet, p.where);
  if (block.carried.isEmpty()) return;
  const QRectF cell = cellsOf(*block.table, block.rows.front().where).front();
  sheet.paragraph(cell.adjusted(0, 0.8, 0, -0.8), block.carried, kCell);
}

void drawPage(Sheet& sheet, const Laid& laid, const TablePage& page) {
  const Table& first = *page.blocks.front().table;
  drawPlainHeader(sheet, page.continued ? first.title + " (continued)" : first.title,
                  first.subtitle);
  for (const Block& block : page.blocks) drawBlock(sheet, block);
  const double foot = footHeight(first, laid.area.width());
  if (foot > 0)
    sheet.paragraph(
        QRectF(laid.area.left(), laid.area.bottom() - foot + 1, laid.area.width(), foot),
        first.foot, kFoot);
}

}  // namespace

std::vector<Page> tablePages(const std::shared_ptr<const PackInput>& input,
                             std::vector<Table> tables) {
  auto laid = std::make_shared<Laid>();
  std::erase_if(tables, [](const Table& t) { return t.rows.empty(); });
  laid->tables = std::move(tables);
  laid->area = input->area();
  addRows(*laid);
  for (size_t i = 0; i < laid->tables.size(); ++i)
    if (!joinLastPage(*laid, i)) startPages(*laid, i);
  std::vector<Page> pages;
  for (size_t i = 0; i < laid->pages.size(); ++i)
    pages.push_back({laid->pages[i].blocks.front().table->title,
                     [laid, i](Sheet& sheet) { drawPage(sheet, *laid, laid->pages[i]); }});
  return pages;
}

}  // namespace rackside::sheets
