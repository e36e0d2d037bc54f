// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/board_list.h"

#include <algorithm>
#include <vector>

#include "core/base/csv.h"
#include "core/trade/thickness.h"

namespace rackside::command {
namespace {

Result<std::vector<std::string>> columnsOf(const std::vector<std::string>& header) {
  static const std::vector<std::string> known{"tag", "name", "species", "thickness", "place"};
  std::vector<std::string> columns = header;
  for (std::string& c : columns) {
    c = trimmed(c);
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
    auto said = parseThickness(cell, unit);
    if (!said) return said.error();
    b.thicknessMm = said->mm;
    b.thicknessSaid = said->said;
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
  auto table = parseCsv(csv);
  if (!table) return Error{"List of boards: " + table.error().message};
  if (table->rows.empty())
    return Error{"The list of boards is empty: it needs a heading row and a row a board."};
  auto columns = columnsOf(table->rows.front().cells);
  if (!columns) return columns.error();
  std::map<int, ListedBoard> list;
  for (size_t r = 1; r < table->rows.size(); ++r) {
    const CsvRow& row = table->rows[r];
    const std::string where = "List of boards, line " + std::to_string(row.line);
    if (row.cells.size() > columns->size()) return Error{where + ": more cells than columns."};
    ListedBoard board;
    int tag = 0;
    for (size_t c = 0; c < row.cells.size(); ++c)
      if (const Status s = pointIsClear(*table, trimmed(row.cells[c])); !s)
        return Error{where + ", column " + (*columns)[c] + ": " + s.error().message};
    for (size_t c = 0; c < row.cells.size(); ++c)
      if (const Status s = setCell(board, tag, (*columns)[c], trimmed(row.cells[c]), bareUnit); !s)
        return Error{where + ", column " + (*columns)[c] + ": " + s.error().message};
    if (tag == 0) return Error{where + ": the tag is missing."};
    if (!list.emplace(tag, board).second)
      return Error{where + ": tag " + std::to_string(tag) + " is listed twice."};
  }
  return list;
}

}  // namespace rackside::command
