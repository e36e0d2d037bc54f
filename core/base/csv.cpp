// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/csv.h"

#include <algorithm>

#include "core/base/number_text.h"

namespace rackside {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

char separatorOf(std::string_view text) {
  int commas = 0, semicolons = 0, tabs = 0;
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == '\n' || c == '\r') break;
    commas += c == ',' ? 1 : 0;
    semicolons += c == ';' ? 1 : 0;
    tabs += c == '\t' ? 1 : 0;
  }
  if (semicolons >= std::max(commas, tabs) && semicolons > 0) return ';';
  return tabs > commas ? '\t' : ',';
}

// The apostrophe that csvText() sets before what looks like a formula.
std::string withoutGuard(std::string cell) {
  const bool guarded = cell.size() > 1 && cell[0] == '\'' &&
                       std::string_view("=+-@\t\r").find(cell[1]) != std::string_view::npos;
  return guarded ? cell.substr(1) : cell;
}

// Well formed, as the Unicode standard's table 3-7 has it, but for surrogates and overlong forms,
// which the store refuses by itself.
bool isUtf8(std::string_view text) {
  size_t more = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool follows = (byte & 0xC0U) == 0x80;
    if (follows != (more > 0)) return false;
    if (follows) {
      --more;
    } else if (byte >= 0x80) {
      if (byte < 0xC2 || byte > 0xF4) return false;
      more = byte >= 0xF0 ? 3 : byte >= 0xE0 ? 2 : 1;
    }
  }
  return more == 0;
}

class CsvReader {
 public:
  CsvReader(std::string_view text, char separator) : left_(text), separator_(separator) {}

  Result<CsvTable> read() {
    CsvTable table;
    table.separator = separator_;
    while (!left_.empty()) {
      Result<CsvRow> row = readRow();
      if (!row) return row.error();
      const auto& cells = row->cells;
      if (std::any_of(cells.begin(), cells.end(),
                      [](const auto& c) { return !trimmed(c).empty(); }))
        table.rows.push_back(std::move(row).value());
    }
    return table;
  }

 private:
  bool atLineEnd() const { return left_.empty() || left_.front() == '\n' || left_.front() == '\r'; }

  void takeLineEnd() {
    if (left_.empty()) return;
    const bool both = left_.substr(0, 2) == "\r\n";
    left_.remove_prefix(both ? 2 : 1);
    ++line_;
  }

  Result<CsvRow> readRow() {
    CsvRow row{line_, {}};
    while (true) {
      Result<std::string> cell = readCell();
      if (!cell) return cell.error();
      row.cells.push_back(withoutGuard(std::move(cell).value()));
      if (atLineEnd()) break;
      left_.remove_prefix(1);
    }
    takeLineEnd();
    return row;
  }

  Result<std::string> readCell() {
    if (!left_.empty() && left_.front() == '"') return readQuoted();
    std::string cell;
    while (!atLineEnd() && left_.front() != separator_) {
      cell += left_.front();
      left_.remove_prefix(1);
    }
    return cell;
  }

  Result<std::string> readQuoted() {
    const int start = line_;
    std::string cell;
    left_.remove_prefix(1);
    while (true) {
      if (left_.empty())
        return Error{"Line " + std::to_string(start) +
                     ": a quote is opened and never closed. Close it, and write a quote inside a "
                     "quoted text twice."};
      const char c = left_.front();
      left_.remove_prefix(1);
      if (c == '\n') ++line_;
      if (c == '"') {
        if (left_.empty() || left_.front() != '"') break;
        left_.remove_prefix(1);
      }
      cell += c;
    }
    if (!atLineEnd() && left_.front() != separator_)
      return Error{"Line " + std::to_string(line_) +
                   ": text follows a closing quote. Write a quote inside a quoted text twice, or "
                   "leave inch marks out and write in."};
    return cell;
  }

  std::string_view left_;
  char separator_;
  int line_ = 1;
};

}  // namespace

std::string trimmed(std::string_view text) {
  const auto blank = " \t\r\n";
  const size_t first = text.find_first_not_of(blank);
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(blank) - first + 1));
}

Result<CsvTable> parseCsv(std::string_view text) {
  if (text.substr(0, kByteOrderMark.size()) == kByteOrderMark)
    text.remove_prefix(kByteOrderMark.size());
  if (!isUtf8(text))
    return Error{
        "This table is not UTF-8: an older program wrote its letters another way. Save it as CSV "
        "(UTF-8) and try again."};
  if (text.find('\0') != std::string_view::npos)
    return Error{"This is no text file. Save the table as CSV (UTF-8) and try again."};
  return CsvReader(text, separatorOf(text)).read();
}

namespace {

// A spreadsheet would take it for a sum to work out; numbers may keep their sign.
bool looksLikeFormula(const std::string& cell) {
  return !cell.empty() &&
         std::string_view("=+-@\t\r").find(cell.front()) != std::string_view::npos &&
         !numberFrom(cell);
}

}  // namespace

std::string csvText(const std::vector<std::vector<std::string>>& rows) {
  std::string text;
  for (const auto& row : rows) {
    for (size_t i = 0; i < row.size(); ++i) {
      if (i > 0) text += ',';
      const std::string cell = (looksLikeFormula(row[i]) ? "'" : "") + row[i];
      const bool quote =
          cell.find_first_of(",;\t\"\r\n") != std::string::npos || trimmed(cell) != cell;
      if (!quote) {
        text += cell;
        continue;
      }
      text += '"';
      for (const char c : cell) text += c == '"' ? std::string("\"\"") : std::string(1, c);
      text += '"';
    }
    text += "\r\n";
  }
  return text;
}

Status pointIsClear(const CsvTable& table, std::string_view cell) {
  if (table.separator != ';') return success();
  const auto digitsFrom = [&cell](size_t at) {
    size_t n = 0;
    while (at + n < cell.size() && cell[at + n] >= '0' && cell[at + n] <= '9') ++n;
    return n;
  };
  const size_t whole = digitsFrom(0);
  if (whole < 1 || whole > 3 || whole >= cell.size() || cell[whole] != '.') return success();
  if (digitsFrom(whole + 1) != 3) return success();
  const std::string joined =
      std::string(cell.substr(0, whole)) + std::string(cell.substr(whole + 1));
  return Error{"\"" + std::string(cell) +
               "\" may mean thousands or decimals in a table parted by semicolons: write " +
               joined + ", or the decimals with a comma."};
}

}  // namespace rackside
