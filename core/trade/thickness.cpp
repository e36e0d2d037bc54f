// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/thickness.h"

#include "core/base/csv.h"
#include "core/trade/tally.h"

namespace rackside {

Result<SaidThickness> parseThickness(std::string_view text, UnitSystem bare) {
  const std::string plain = trimmed(text);
  if (const auto mm = thicknessFromQuarters(plain)) return SaidThickness{*mm, plain};
  if (plain.ends_with("/4") && plain.find(' ') == std::string::npos && plain != "1/4" &&
      plain != "2/4")
    return Error{"\"" + plain +
                 "\" is no thickness that lumber is sawn to; say 4/4, 5/4, 6/4, 8/4, 10/4, 12/4 or "
                 "16/4, or a length such as 27mm."};
  const Result<double> mm = parseLengthMm(plain, bare);
  if (!mm) return mm.error();
  return SaidThickness{*mm, {}};
}

std::string thicknessText(double mm, const std::string& said, const LengthStyle& style) {
  const std::string length = formatLength(mm, style);
  return said.empty() ? length : said + " (" + length + ")";
}

}  // namespace rackside
