// SPDX-License-Identifier: GPL-3.0-or-later
// The tally as a table: the CSV half of rack_totals.h.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <set>

#include "core/base/csv.h"
#include "core/base/name_table.h"
#include "core/base/number_text.h"
#include "core/trade/rack_totals.h"
#include "core/trade/tally.h"
#include "core/trade/thickness.h"

namespace rackside {
namespace {

// More of either is a slip of the keyboard.
constexpr int kMostPieces = 100000;
constexpr double kMostPrice = 1e6;

std::string decimals(double value, int places) {
  const double scale = std::pow(10, places);
  const double rounded = std::round(value * scale) / scale;
  std::string text(40, '\0');
  const auto [end, error] = std::to_chars(text.data(), text.data() + text.size(), rounded,
                                          std::chars_format::fixed, places);
  text.resize(static_cast<size_t>(end - text.data()));
  return text;
}

template <class Number>
Status readNumber(const std::string& cell, Number greatest, Number& place) {
  const std::optional<double> value = numberFrom(cell);
  const bool whole = !std::is_integral_v<Number> || (value && *value == std::floor(*value));
  if (!value || !whole || !(*value >= 0) || *value > static_cast<double>(greatest))
    return Error{"\"" + cell + "\" is not understood; type a number from 0 to " +
                 std::to_string(static_cast<long long>(greatest)) + "."};
  place = static_cast<Number>(*value);
  return success();
}

Status readLength(const std::string& cell, UnitSystem bare, double& place) {
  const Result<double> mm = parseLengthMm(cell, bare);
  if (!mm) return mm.error();
  place = *mm;
  return success();
}

// A column: what it may be headed, and how a cell of it is read. What the tally works out itself
// is passed over.
struct Column {
  std::vector<std::string_view> headings;
  Status (*read)(const std::string& cell, UnitSystem bare, TallyLine& line);
};

const std::vector<Column>& columns() {
  using Line = TallyLine;
  static const auto passOver = [](const std::string&, UnitSystem, Line&) { return success(); };
  static const std::vector<Column> all = {
      {{"name", "board", "number", "no"},
       [](const std::string& c, UnitSystem, Line& l) { return l.name = c, success(); }},
      {{"species", "wood"},
       [](const std::string& c, UnitSystem, Line& l) { return l.species = c, success(); }},
      {{"pieces", "qty", "quantity", "count", "boards", "pcs"},
       [](const std::string& c, UnitSystem, Line& l) {
         return readNumber(c, kMostPieces, l.pieces);
       }},
      {{"length", "long"},
       [](const std::string& c, UnitSystem u, Line& l) { return readLength(c, u, l.lengthMm); }},
      {{"width", "wide"},
       [](const std::string& c, UnitSystem u, Line& l) { return readLength(c, u, l.widthMm); }},
      {{"thickness", "thick"},
       [](const std::string& c, UnitSystem u, Line& l) -> Status {
         const Result<SaidThickness> t = parseThickness(c, u);
         if (!t) return t.error();
         l.thicknessMm = t->mm;
         l.thicknessSaid = t->said;
         return success();
       }},
      {{"price", "price a board foot", "price per board foot"},
       [](const std::string& c, UnitSystem, Line& l) {
         return readNumber(c, kMostPrice, l.pricePerBoardFoot);
       }},
      {{"nominal"}, passOver},
      {{"surface measure ft2"}, passOver},
      {{"board feet"}, passOver},
      {{"board feet exact"}, passOver},
      {{"volume m3"}, passOver},
      {{"place"}, passOver},
      {{"note"}, passOver},
  };
  return all;
}

Result<std::vector<const Column*>> readHeadings(const CsvRow& row) {
  std::vector<const Column*> found;
  std::set<const Column*> met;
  for (const std::string& raw : row.cells) {
    const std::string cell = trimmed(raw);
    const auto column = std::find_if(columns().begin(), columns().end(), [&](const Column& c) {
      return std::any_of(c.headings.begin(), c.headings.end(),
                         [&](std::string_view known) { return sameName(known, cell); });
    });
    if (cell.empty()) {
      found.push_back(nullptr);
      continue;
    }
    if (column == columns().end())
      return Error{"The column \"" + cell +
                   "\" is not known. Known are name, species, pieces (qty), length, width, "
                   "thickness, price, place and note. Rename it or leave it out."};
    if (!met.insert(&*column).second)
      return Error{"The column \"" + cell + "\" is there twice. Leave one of them out."};
    found.push_back(&*column);
  }
  return found;
}

Status complete(const TallyLine& line) {
  if (line.lengthMm > 0 && line.widthMm > 0 && line.thicknessMm > 0 && line.pieces > 0)
    return success();
  return Error{"needs a length, a width, a thickness and 1 piece or more."};
}

Result<TallyLine> readLine(const CsvTable& table, const CsvRow& row,
                           const std::vector<const Column*>& headings, UnitSystem bare) {
  const std::string place = "Row " + std::to_string(row.line);
  TallyLine line;
  for (size_t c = 0; c < row.cells.size(); ++c) {
    const std::string cell = trimmed(row.cells[c]);
    if (cell.empty()) continue;
    if (c >= headings.size() || !headings[c])
      return Error{place + ": \"" + cell + "\" stands where the first row names no column."};
    Status read = pointIsClear(table, cell);
    if (read) read = headings[c]->read(cell, bare, line);
    if (!read)
      return Error{place + ", column \"" + std::string(headings[c]->headings.front()) +
                   "\": " + read.error().message};
  }
  if (const Status s = complete(line); !s) return Error{place + " " + s.error().message};
  line.areaMm2 = line.lengthMm * line.widthMm;
  return line;
}

}  // namespace

std::string tallyToCsv(const std::vector<TallyLine>& lines) {
  std::vector<std::vector<std::string>> rows{
      {"name", "species", "pieces", "length", "width", "thickness", "nominal",
       "surface measure ft2", "board feet", "board feet exact", "volume m3", "price"}};
  const std::vector<LineTally> tallies = tallyOf(lines, {});
  for (size_t i = 0; i < lines.size(); ++i) {
    const TallyLine& line = lines[i];
    const LineTally& t = tallies[i];
    rows.push_back(
        {line.name, line.species, std::to_string(line.pieces), decimals(line.lengthMm, 1) + " mm",
         decimals(line.widthMm, 1) + " mm",
         line.thicknessSaid.empty() ? decimals(line.thicknessMm, 1) + " mm" : line.thicknessSaid,
         nominalName(t.nominalIn), std::to_string(t.surfaceMeasureFt2), decimals(t.boardFeet, 2),
         decimals(t.boardFeetExact, 2), decimals(t.volumeM3, 4),
         decimals(line.pricePerBoardFoot, 2)});
  }
  return csvText(rows);
}

Result<std::vector<TallyLine>> tallyFromCsv(std::string_view csv, UnitSystem bareUnit) {
  const Result<CsvTable> table = parseCsv(csv);
  if (!table) return table.error();
  if (table->rows.empty())
    return Error{
        "The table is empty. Its first row must name the columns: name, species, pieces, "
        "length, width, thickness."};
  const auto headings = readHeadings(table->rows.front());
  if (!headings) return headings.error();
  std::vector<TallyLine> lines;
  lines.reserve(table->rows.size());
  for (size_t i = 1; i < table->rows.size(); ++i) {
    const Result<TallyLine> line = readLine(*table, table->rows[i], *headings, bareUnit);
    if (!line) return line.error();
    lines.push_back(*line);
  }
  return lines;
}

}  // namespace rackside
