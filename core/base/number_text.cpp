// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/number_text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <vector>

namespace rackside {

std::string fixedText(double value, int decimals) {
  std::vector<char> text(400);  // 1e308 has 309 digits
  const auto [end, error] = std::to_chars(text.data(), text.data() + text.size(), value,
                                          std::chars_format::fixed, decimals);
  std::string out(text.data(), end);
  const bool isZero = out.find_first_not_of("-0.") == std::string::npos;
  return isZero && out.front() == '-' ? out.substr(1) : out;
}

std::optional<double> numberFrom(std::string_view text) {
  const size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return std::nullopt;
  std::string plain(text.substr(first, text.find_last_not_of(' ') - first + 1));
  if (std::count(plain.begin(), plain.end(), ',') == 1 && plain.find('.') == std::string::npos)
    std::replace(plain.begin(), plain.end(), ',', '.');
  double value = 0;
  const char* const stop = plain.data() + plain.size();
  const auto [end, error] = std::from_chars(plain.data(), stop, value);
  if (error != std::errc() || end != stop || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace rackside
