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
  // On a page that starts with an empty first cell, that of the row it belongs to is said again.
  bool carryFirstCell = false;
};

// Cells wrap at words; a row is as high as its highest cell. A table that fits below the one before
// it, and has the same foot, goes there; any other starts a page. Tables without rows are left out.
std::vector<Page> tablePages(const std::shared_ptr<const PackInput>& input,
                             std::vector<Table> tables);

}  // namespace rackside::sheets
