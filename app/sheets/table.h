// SPDX-License-Identifier: GPL-3.0-or-later
// A table that flows over pages, its head repeated on each.
#pragma once

#include "app/sheets/page.h"

namespace rackside::sheets {

struct Column {
  QString head;
  double share = 1;  // of the width
  bool right = false;
};

struct Table {
  QString title;
  QString subtitle;
  std::vector<Column> columns;
  std::vector<std::vector<QString>> rows;
  QString foot;  // a caution under the table on each page
};

// Cells wrap at words; a row is as high as its highest cell.
std::vector<Page> tablePages(std::shared_ptr<const PackInput> input, Table table);

}  // namespace rackside::sheets
