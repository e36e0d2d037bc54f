// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/secret.h"

#include <QRandomGenerator>
#include <algorithm>
#include <array>
#include <cstdint>

namespace rackside::serve {

namespace {
constexpr size_t kDigits = 32;
constexpr std::string_view kHex = "0123456789abcdef";
}  // namespace

std::string newSecret() {
  std::array<std::uint32_t, 4> words{};
  QRandomGenerator::system()->fillRange(words.data(), static_cast<qsizetype>(words.size()));
  std::string text;
  for (const std::uint32_t word : words)
    for (unsigned shift = 0; shift < 32; shift += 4) text += kHex[(word >> shift) & 15U];
  return text;
}

bool sameSecret(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned char different = 0;
  for (size_t i = 0; i < a.size(); ++i)
    different = static_cast<unsigned char>(different | (a[i] ^ b[i]));
  return different == 0;
}

bool isSecretForm(std::string_view text) {
  return text.size() == kDigits && std::all_of(text.begin(), text.end(), [](char c) {
           return kHex.find(c) != std::string_view::npos;
         });
}

}  // namespace rackside::serve
