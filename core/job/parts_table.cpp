// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/parts_table.h"

#include <algorithm>
#include <set>

#include "core/base/csv.h"
#include "core/job/parts_columns.h"
#include "core/job/parts_limits.h"

namespace rackside {
namespace {

std::string knownHeadings() {
  std::string all;
  for (const PartsColumn& column : partsColumns())
    all += (all.empty() ? "" : ", ") + std::string(column.headings.front());
  return all;
}

Result<std::vector<PartsHeading>> readHeadings(const CsvRow& row, UnitSystem bareUnit) {
  std::vector<PartsHeading> headings;
  std::set<const PartsColumn*> met;
  for (const std::string& raw : row.cells) {
    const std::string cell = trimmed(raw);
    headings.push_back(partsHeading(cell, bareUnit));
    const PartsColumn* column = headings.back().column;
    if (!cell.empty() && !column)
      return Error{"The column \"" + cell + "\" is not known. Known are: " + knownHeadings() +
                   ". Rename it or leave it out."};
    if (column && !met.insert(column).second)
      return Error{"The column \"" + cell + "\" is there twice. Leave one of them out."};
  }
  for (const PartsColumn& column : partsColumns())
    if (column.required && met.count(&column) == 0)
      return Error{"The column \"" + std::string(column.headings.front()) +
                   "\" is missing. The first row must name the columns; needed are name, copies, "
                   "length, width and thickness."};
  return headings;
}

Error at(const CsvRow& row, const std::string& column, const std::string& what) {
  return Error{"Row " + std::to_string(row.line) + ", column \"" + column + "\": " + what};
}

bool hasBackColumns(const std::vector<PartsHeading>& headings) {
  return std::any_of(headings.begin(), headings.end(), [](const PartsHeading& h) {
    return h.column && h.column->headings.front().substr(0, 5) == "back ";
  });
}

Result<Part> readPart(const CsvTable& table, const CsvRow& row,
                      const std::vector<PartsHeading>& headings) {
  Part part;
  for (size_t i = 0; i < row.cells.size(); ++i) {
    const std::string cell = trimmed(row.cells[i]);
    const PartsHeading* heading = i < headings.size() ? &headings[i] : nullptr;
    if (!heading || !heading->column) {
      if (cell.empty()) continue;
      return Error{"Row " + std::to_string(row.line) + ": \"" + cell +
                   "\" stands where the first row names no column. Put quotes round a text that "
                   "holds the separator."};
    }
    if (cell.empty() && heading->column->required) return at(row, heading->text, "is empty.");
    if (cell.empty()) continue;
    if (const Status clear = pointIsClear(table, cell); !clear)
      return at(row, heading->text, clear.error().message);
    if (const Status read = heading->column->read(cell, heading->unit, part); !read)
      return at(row, heading->text, read.error().message);
  }
  if (row.cells.size() < headings.size())
    for (size_t i = row.cells.size(); i < headings.size(); ++i)
      if (headings[i].column && headings[i].column->required)
        return at(row, headings[i].text, "is missing; the row has too few cells.");
  if (!hasBackColumns(headings)) part.back = part.show;
  if (part.id.empty()) part.id.text = newIdText("part");
  if (const Status sound = validate(part); !sound)
    return Error{"Row " + std::to_string(row.line) + ": " + sound.error().message};
  return part;
}

}  // namespace

Result<std::vector<Part>> partsFromCsv(std::string_view csv, UnitSystem bareUnit) {
  const Result<CsvTable> table = parseCsv(csv);
  if (!table) return table.error();
  if (table->rows.empty())
    return Error{
        "The table is empty. Its first row must name the columns: name, copies, length, "
        "width, thickness."};
  const Result<std::vector<PartsHeading>> headings = readHeadings(table->rows.front(), bareUnit);
  if (!headings) return headings.error();
  std::vector<Part> parts;
  std::set<PartId> ids;
  for (size_t i = 1; i < table->rows.size(); ++i) {
    Result<Part> part = readPart(*table, table->rows[i], *headings);
    if (!part) return part.error();
    if (!ids.insert(part->id).second)
      return at(table->rows[i], "id", "\"" + part->id.text + "\" is there twice.");
    parts.push_back(std::move(part).value());
  }
  if (const Status sound = validate(parts); !sound) return sound.error();
  if (parts.empty()) return Error{"The table has headings but no parts. Add a row for each part."};
  return parts;
}

std::string partsToCsv(const std::vector<Part>& parts, const LengthStyle& style) {
  std::vector<std::vector<std::string>> rows(1);
  for (const PartsColumn& column : partsColumns()) rows[0].emplace_back(column.headings.front());
  for (const Part& part : parts) {
    rows.emplace_back();
    for (const PartsColumn& column : partsColumns())
      rows.back().push_back(column.write(part, style));
  }
  return csvText(rows);
}

}  // namespace rackside
