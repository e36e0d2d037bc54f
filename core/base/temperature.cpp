// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/temperature.h"

#include <charconv>
#include <cmath>

namespace rackside {
namespace {

constexpr double kLeastCelsius = -60, kGreatestCelsius = 120;  // beyond: a slip of the keyboard

std::string_view withoutSpaces(std::string_view s) {
  while (!s.empty() && s.front() == ' ') s.remove_prefix(1);
  while (!s.empty() && s.back() == ' ') s.remove_suffix(1);
  return s;
}

}  // namespace

Result<double> parseCelsius(std::string_view text, bool bareFahrenheit) {
  const Error unlike{"The temperature \"" + std::string(text) +
                     "\" is not understood. Type something like 21C or 70F."};
  std::string number(withoutSpaces(text));
  for (char& c : number)
    if (c == ',') c = '.';
  double value = 0;
  const char* first = number.data() + (number.starts_with('+') ? 1 : 0);
  const auto [end, error] = std::from_chars(first, number.data() + number.size(), value);
  if (error != std::errc()) return unlike;
  std::string_view unit =
      withoutSpaces({end, static_cast<size_t>(number.data() + number.size() - end)});
  constexpr std::string_view kDegree = "°";
  if (unit.starts_with(kDegree)) unit = withoutSpaces(unit.substr(kDegree.size()));
  const bool isF = unit == "F" || unit == "f", isC = unit == "C" || unit == "c";
  if (!unit.empty() && !isF && !isC) return unlike;
  const double celsius = isF || (unit.empty() && bareFahrenheit) ? (value - 32) / 1.8 : value;
  if (!(celsius >= kLeastCelsius && celsius <= kGreatestCelsius)) return unlike;
  return celsius;
}

std::string formatTemperature(double celsius, bool fahrenheit) {
  const double shown = fahrenheit ? celsius * 1.8 + 32 : celsius;
  return std::to_string(std::lround(shown)) + (fahrenheit ? " °F" : " °C");
}

}  // namespace rackside
