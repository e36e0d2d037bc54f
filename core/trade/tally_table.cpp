// SPDX-License-Identifier: GPL-3.0-or-later
// The tally as a table: the CSV half of rack_totals.h.
#include <algorithm>
#include <charconv>
#include <cmath>

#include "core/base/csv.h"
#include "core/base/name_table.h"
#include "core/trade/rack_totals.h"
#include "core/trade/tally.h"

namespace rackside {
namespace {

std::string decimals(double value, int places) {
  const double scale = std::pow(10, places);
  const double rounded = std::round(value * scale) / scale;
  std::string text(40, '\0');
  const auto [end, error] = std::to_chars(text.data(), text.data() + text.size(), rounded,
                                          std::chars_format::fixed, places);
  text.resize(static_cast<size_t>(end - text.data()));
  return text;
}

Status readCell(const std::string& heading, const std::string& cell, UnitSystem bare,
                TallyLine& line) {
  const auto length = [&](double& place) -> Status {
    const Result<double> mm = parseLengthMm(cell, bare);
    if (!mm) return mm.error();
    place = *mm;
    return success();
  };
  const auto number = [&](auto& place) -> Status {
    const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), place);
    if (error != std::errc() || end != cell.data() + cell.size() || !(place >= 0))
      return Error{"\"" + cell + "\" is not understood; type a number, 0 or more."};
    return success();
  };
  if (sameName(heading, "length")) return length(line.lengthMm);
  if (sameName(heading, "width")) return length(line.widthMm);
  if (sameName(heading, "thickness")) return length(line.thicknessMm);
  if (sameName(heading, "pieces")) return number(line.pieces);
  if (sameName(heading, "price")) return number(line.pricePerBoardFoot);
  if (sameName(heading, "name")) line.name = cell;
  if (sameName(heading, "species")) line.species = cell;
  return success();
}

Status complete(const TallyLine& line) {
  if (line.lengthMm > 0 && line.widthMm > 0 && line.thicknessMm > 0 && line.pieces > 0)
    return success();
  return Error{"needs a length, a width, a thickness and 1 piece or more."};
}

}  // namespace

std::string tallyToCsv(const std::vector<TallyLine>& lines) {
  std::vector<std::vector<std::string>> rows{{"name", "species", "pieces", "length", "width",
                                              "thickness", "nominal", "surface measure ft2",
                                              "board feet", "board feet exact", "price"}};
  for (const TallyLine& line : lines) {
    const double nominal = nominalThicknessIn(line.thicknessMm);
    const int sm = surfaceMeasure(line.widthMm, line.lengthMm);
    const double exact = line.areaMm2 * line.thicknessMm / (144 * std::pow(kMmPerInch, 3));
    rows.push_back({line.name, line.species, std::to_string(line.pieces),
                    decimals(line.lengthMm, 1) + " mm", decimals(line.widthMm, 1) + " mm",
                    decimals(line.thicknessMm, 1) + " mm", nominalName(nominal),
                    std::to_string(line.pieces * sm),
                    decimals(line.pieces * boardFeet(sm, nominal), 2),
                    decimals(line.pieces * exact, 2), decimals(line.pricePerBoardFoot, 2)});
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
  const std::vector<std::string>& headings = table->rows.front().cells;
  std::vector<TallyLine> lines;
  for (size_t i = 1; i < table->rows.size(); ++i) {
    const CsvRow& row = table->rows[i];
    const std::string place = "Row " + std::to_string(row.line);
    TallyLine line;
    for (size_t c = 0; c < std::min(row.cells.size(), headings.size()); ++c) {
      const std::string heading = trimmed(headings[c]), cell = trimmed(row.cells[c]);
      if (cell.empty()) continue;
      if (const Status s = readCell(heading, cell, bareUnit, line); !s)
        return Error{place + ", column \"" + heading + "\": " + s.error().message};
    }
    if (const Status s = complete(line); !s) return Error{place + " " + s.error().message};
    line.areaMm2 = line.lengthMm * line.widthMm;
    lines.push_back(line);
  }
  return lines;
}

}  // namespace rackside
