// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/board_list.h"

#include <algorithm>
#include <vector>

namespace rackside::command {
namespace {

using Row = std::vector<std::string>;

std::string trimmed(std::string s) {
  const char* blanks = " \t\r\n";
  s.erase(0, std::min(s.find_first_not_of(blanks), s.size()));
  s.erase(s.find_last_not_of(blanks) + 1);
  return s;
}

char separatorOf(std::string_view csv) {
  const std::string_view header = csv.substr(0, csv.find('\n'));
  for (const char c : {'\t', ';'})
    if (header.find(c) != std::string_view::npos) return c;
  return ',';
}

// Quotes as in RFC 4180; blank lines give empty rows, so that row numbers stay true.
Result<std::vector<Row>> rowsOf(std::string_view csv) {
  const char separator = separatorOf(csv);
  std::vector<Row> rows{{""}};
  bool quoted = false;
  for (size_t i = 0; i < csv.size(); ++i) {
    const char c = csv[i];
    if (quoted && c == '"' && i + 1 < csv.size() && csv[i + 1] == '"') {
      rows.back().back() += c;
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (c == separator && !quoted) {
      rows.back().push_back("");
    } else if (c == '\n' && !quoted) {
      rows.push_back({""});
    } else {
      rows.back().back() += c;
    }
  }
  if (quoted) return Error{"The list of boards ends inside a quoted cell: close the quote."};
  for (Row& row : rows)
    for (std::string& cell : row) cell = trimmed(cell);
  return rows;
}

Result<std::vector<std::string>> columnsOf(const Row& header) {
  static const std::vector<std::string> known{"tag", "name", "species", "thickness", "place"};
  std::vector<std::string> columns = header;
  for (std::string& c : columns) {
    std::transform(c.begin(), c.end(), c.begin(),
                   [](unsigned char ch) { return char(std::tolower(ch)); });
    if (std::find(known.begin(), known.end(), c) == known.end())
      return Error{"The list of boards has a column \"" + c +
                   "\"; known are tag, name, species, thickness, place."};
  }
  if (std::find(columns.begin(), columns.end(), "tag") == columns.end())
    return Error{"The list of boards needs a column tag: the number on each board's tag."};
  return columns;
}

Result<int> tagOf(const std::string& cell) {
  try {
    size_t used = 0;
    const int tag = std::stoi(cell, &used);
    if (used == cell.size() && tag > 0) return tag;
  } catch (const std::exception&) {
    // falls through to the message
  }
  return Error{"\"" + cell + "\" is not a tag number."};
}

Status setCell(ListedBoard& b, int& tag, const std::string& column, const std::string& cell,
               UnitSystem unit) {
  if (column == "tag") {
    auto number = tagOf(cell);
    if (!number) return number.error();
    tag = *number;
  } else if (column == "thickness" && !cell.empty()) {
    auto mm = parseLengthMm(cell, unit);
    if (!mm) return mm.error();
    b.thicknessMm = *mm;
  } else if (column == "name") {
    b.name = cell;
  } else if (column == "species") {
    b.species = cell;
  } else if (column == "place") {
    b.place = cell;
  }
  return success();
}

}  // namespace

Result<std::map<int, ListedBoard>> boardListFromCsv(std::string_view csv, UnitSystem bareUnit) {
  if (csv.starts_with("\xEF\xBB\xBF")) csv.remove_prefix(3);  // byte order mark of spreadsheets
  auto rows = rowsOf(csv);
  if (!rows) return rows.error();
  auto columns = columnsOf(rows->front());
  if (!columns) return columns.error();
  std::map<int, ListedBoard> list;
  for (size_t r = 1; r < rows->size(); ++r) {
    const Row& row = (*rows)[r];
    if (row.size() == 1 && row[0].empty()) continue;
    const std::string where = "List of boards, row " + std::to_string(r + 1);
    if (row.size() > columns->size()) return Error{where + ": more cells than columns."};
    ListedBoard board;
    int tag = 0;
    for (size_t c = 0; c < row.size(); ++c)
      if (const Status s = setCell(board, tag, (*columns)[c], row[c], bareUnit); !s)
        return Error{where + ", column " + (*columns)[c] + ": " + s.error().message};
    if (tag == 0) return Error{where + ": the tag is missing."};
    if (!list.emplace(tag, board).second)
      return Error{where + ": tag " + std::to_string(tag) + " is listed twice."};
  }
  return list;
}

}  // namespace rackside::command
