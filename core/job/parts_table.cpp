// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/parts_table.h"

#include <algorithm>
#include <array>
#include <set>

#include "core/base/csv.h"
#include "core/base/name_table.h"
#include "core/job/parts_columns.h"

namespace rackside {
namespace {

// A column of the file: what it holds, and in which unit a bare number stands there.
struct Heading {
  const PartsColumn* column = nullptr;  // none: a column without a heading
  UnitSystem unit;
  std::string text;
};

struct UnitEnding {
  std::string_view text;
  UnitSystem unit;
};
constexpr std::array kUnitEndings = {
    UnitEnding{"(mm)", UnitSystem::millimetres}, UnitEnding{"[mm]", UnitSystem::millimetres},
    UnitEnding{"_mm", UnitSystem::millimetres},  UnitEnding{" mm", UnitSystem::millimetres},
    UnitEnding{"(in)", UnitSystem::inches},      UnitEnding{"[in]", UnitSystem::inches},
    UnitEnding{"_in", UnitSystem::inches},       UnitEnding{" in", UnitSystem::inches},
    UnitEnding{"(inches)", UnitSystem::inches},
};

Heading headingOf(const std::string& cell, UnitSystem bareUnit) {
  Heading heading{nullptr, bareUnit, cell};
  std::string base = cell;
  for (const UnitEnding& ending : kUnitEndings)
    if (base.size() > ending.text.size() &&
        sameName(std::string_view(base).substr(base.size() - ending.text.size()), ending.text)) {
      heading.unit = ending.unit;
      base = trimmed(base.substr(0, base.size() - ending.text.size()));
      break;
    }
  for (const PartsColumn& column : partsColumns())
    for (const std::string_view known : column.headings)
      if (sameName(known, base)) heading.column = &column;
  return heading;
}

std::string knownHeadings() {
  std::string all;
  for (const PartsColumn& column : partsColumns())
    all += (all.empty() ? "" : ", ") + std::string(column.headings.front());
  return all;
}

Result<std::vector<Heading>> readHeadings(const CsvRow& row, UnitSystem bareUnit) {
  std::vector<Heading> headings;
  std::set<const PartsColumn*> met;
  for (const std::string& raw : row.cells) {
    const std::string cell = trimmed(raw);
    headings.push_back(headingOf(cell, bareUnit));
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

bool hasBackColumns(const std::vector<Heading>& headings) {
  return std::any_of(headings.begin(), headings.end(), [](const Heading& h) {
    return h.column && h.column->headings.front().substr(0, 5) == "back ";
  });
}

Result<Part> readPart(const CsvTable& table, const CsvRow& row,
                      const std::vector<Heading>& headings) {
  Part part;
  for (size_t i = 0; i < row.cells.size(); ++i) {
    const std::string cell = trimmed(row.cells[i]);
    const Heading* heading = i < headings.size() ? &headings[i] : nullptr;
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
  const Result<std::vector<Heading>> headings = readHeadings(table->rows.front(), bareUnit);
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
