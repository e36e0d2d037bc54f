// SPDX-License-Identifier: GPL-3.0-or-later
// Names of the values of an enumeration, both ways. A table lists them in the order of the values.
#pragma once

#include <array>
#include <cctype>
#include <optional>
#include <stdexcept>
#include <string_view>

namespace rackside {

// "Hole to fill", "hole_to_fill" and "hole-to-fill" are one name.
inline bool sameName(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  const auto plain = [](char c) {
    if (c == ' ' || c == '_') return '-';
    return static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  };
  for (size_t i = 0; i < a.size(); ++i)
    if (plain(a[i]) != plain(b[i])) return false;
  return true;
}

template <class Enum, size_t N>
std::string_view nameIn(const std::array<std::string_view, N>& table, Enum value) {
  const auto index = static_cast<size_t>(value);
  if (index >= N) throw std::logic_error("a value that its enumeration does not have");
  return table[index];
}

template <class Enum, size_t N>
std::optional<Enum> valueIn(const std::array<std::string_view, N>& table, std::string_view name) {
  for (size_t i = 0; i < N; ++i)
    if (sameName(table[i], name)) return static_cast<Enum>(i);
  return std::nullopt;
}

}  // namespace rackside
