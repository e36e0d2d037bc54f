// SPDX-License-Identifier: GPL-3.0-or-later
// The pages of the pack before they are painted, so that a preview, a PDF and a test show the same.
#pragma once

#include <QString>
#include <filesystem>
#include <functional>
#include <memory>
#include <vector>

#include "app/sheets/board_work.h"
#include "app/sheets/paper.h"
#include "app/sheets/sheet.h"
#include "core/document/rack.h"

namespace rackside::sheets {

struct PackOptions {
  Paper paper = Paper::a4;
  LengthStyle lengths;
  // What goes to the bench; the lists that say the same again, or are for another day, when they
  // are asked for.
  bool pull = true, boards = true, milling = true, labels = true;
  bool parts = false, cuts = false, fill = false, movement = false, tally = false;
  BoardId onlyBoard;  // empty: the page of each board that is cut; without a plan, of each
};

struct Page {
  QString title;
  std::function<void(Sheet&)> draw;
};

// What every page draws from; must outlive the pages.
struct PackInput {
  const Rack& rack;
  std::filesystem::path folder;  // of the rack: the pictures are there
  PackOptions options;
  std::vector<BoardWork> works;  // in the order of the rack's boards
  QSizeF pageMm() const { return paperSizeMm(options.paper, true); }
  QRectF area() const;  // inside the margins, above the footer
  QString length(double mm, bool withUnit = true) const;
};

// A row of a list that flows over columns and pages.
struct FlowRow {
  double height = 0;
  std::function<void(Sheet&, const QRectF&)> draw;  // into the rectangle given
};

// Fills `first`, then as many rectangles like `next` as are needed. One entry a rectangle: the rows
// in it with where they stand.
struct PlacedRow {
  QRectF where;
  const FlowRow* row;
};
std::vector<std::vector<PlacedRow>> flow(const std::vector<FlowRow>& rows,
                                         const std::vector<QRectF>& first,
                                         const std::vector<QRectF>& next);

// Common furniture of a page.
inline constexpr double kHeaderMm = 19;
inline constexpr double kFooterMm = 6;
void drawPlainHeader(Sheet& sheet, const QString& title, const QString& subtitle);
void drawFooter(Sheet& sheet, const QString& left, int page, int pages);

std::vector<Page> pullPages(const std::shared_ptr<const PackInput>& input);
std::vector<Page> boardPages(const std::shared_ptr<const PackInput>& input);
std::vector<Page> partsPages(const std::shared_ptr<const PackInput>& input);
std::vector<Page> cutListPages(const std::shared_ptr<const PackInput>& input);
std::vector<Page> millingPages(const std::shared_ptr<const PackInput>& input);
std::vector<Page> fillPages(const std::shared_ptr<const PackInput>& input);
std::vector<Page> movementPages(const std::shared_ptr<const PackInput>& input);
std::vector<Page> tallyPages(const std::shared_ptr<const PackInput>& input);
std::vector<Page> labelPages(const std::shared_ptr<const PackInput>& input);
PackOptions labelsAlone(PackOptions options);

// What every board page says of the saw, every parts page of dust and milling. Common practice.
QString sawCaution();
QString millingCaution();
QString wordForBoard(const Board& board);  // "Board 7", or its name where it has no tag

}  // namespace rackside::sheets
