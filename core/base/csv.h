// SPDX-License-Identifier: GPL-3.0-or-later
// Tables as text (RFC 4180), with what spreadsheets do to them: a byte-order mark, `;` or tab for
// separators, either line ending.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace rackside {

struct CsvRow {
  int line = 1;  // of the file, where the row begins, as an editor counts
  std::vector<std::string> cells;
};

struct CsvTable {
  char separator = ',';
  std::vector<CsvRow> rows;  // without the wholly empty ones
};

// The separator is the one of `,` `;` and tab that the first line holds most of. Fails on a quote
// that is never closed and on text after a closing quote, with the line, and on bytes that are no
// text.
Result<CsvTable> parseCsv(std::string_view text);

// Comma and CRLF, quotes where they are needed.
std::string csvText(const std::vector<std::vector<std::string>>& rows);

std::string trimmed(std::string_view text);

// A table whose cells are parted by `;` writes decimals with a comma: a point before three digits
// (`1.200`, `1.200 mm`) then groups thousands, or does not. Fails with the question.
Status pointIsClear(const CsvTable& table, std::string_view cell);

}  // namespace rackside
