// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/length_text.h"

#include <array>
#include <cctype>

namespace rackside {
namespace {

struct Replacement {
  std::string_view utf8;
  std::string_view plain;
};

constexpr std::array kReplacements = {
    Replacement{"½", " 1/2"},   Replacement{"¼", " 1/4"},   Replacement{"¾", " 3/4"},
    Replacement{"⅐", " 1/7"},   Replacement{"⅑", " 1/9"},   Replacement{"⅒", " 1/10"},
    Replacement{"⅓", " 1/3"},   Replacement{"⅔", " 2/3"},   Replacement{"⅕", " 1/5"},
    Replacement{"⅖", " 2/5"},   Replacement{"⅗", " 3/5"},   Replacement{"⅘", " 4/5"},
    Replacement{"⅙", " 1/6"},   Replacement{"⅚", " 5/6"},   Replacement{"⅛", " 1/8"},
    Replacement{"⅜", " 3/8"},   Replacement{"⅝", " 5/8"},   Replacement{"⅞", " 7/8"},
    Replacement{"⁄", "/"},      Replacement{"∕", "/"},      Replacement{"′", "'"},
    Replacement{"’", "'"},      Replacement{"‘", "'"},      Replacement{"″", "\""},
    Replacement{"”", "\""},     Replacement{"“", "\""},     Replacement{"‐", "-"},
    Replacement{"‑", "-"},      Replacement{"–", "-"},      Replacement{"—", "-"},
    Replacement{"−", "-"},      Replacement{"\u00a0", " "}, Replacement{"\u2009", " "},
    Replacement{"\u202f", " "}, Replacement{"\u2007", " "}, Replacement{"\t", " "},
    Replacement{"''", "\""},    Replacement{"′′", "\""},
};

// ⁷⁄₈ : a raised numerator begins a fraction, whatever stands before it.
constexpr std::array<std::string_view, 10> kRaised = {"⁰", "¹", "²", "³", "⁴",
                                                      "⁵", "⁶", "⁷", "⁸", "⁹"};
constexpr std::array<std::string_view, 10> kLowered = {"₀", "₁", "₂", "₃", "₄",
                                                       "₅", "₆", "₇", "₈", "₉"};

size_t takeDigit(std::string_view rest, const std::array<std::string_view, 10>& digits, char& out) {
  for (size_t d = 0; d < digits.size(); ++d)
    if (rest.substr(0, digits[d].size()) == digits[d]) {
      out = static_cast<char>('0' + d);
      return digits[d].size();
    }
  return 0;
}

// Bytes of `rest` understood, their plain form appended to `out`; 0 when nothing special is there.
size_t takeSpecial(std::string_view rest, bool afterRaised, std::string& out) {
  size_t longest = 0;
  std::string_view plain;
  for (const Replacement& r : kReplacements)
    if (r.utf8.size() > longest && rest.substr(0, r.utf8.size()) == r.utf8) {
      longest = r.utf8.size();
      plain = r.plain;
    }
  if (longest > 0) {
    out += plain;
    return longest;
  }
  char digit = '0';
  if (const size_t bytes = takeDigit(rest, kRaised, digit)) {
    if (!afterRaised) out += ' ';
    out += digit;
    return bytes;
  }
  if (const size_t bytes = takeDigit(rest, kLowered, digit)) {
    out += digit;
    return bytes;
  }
  return 0;
}

}  // namespace

std::string plainLengthText(std::string_view text) {
  std::string out;
  bool afterRaised = false;
  while (!text.empty()) {
    char digit = '0';
    const bool raised = takeDigit(text, kRaised, digit) > 0;
    size_t bytes = takeSpecial(text, afterRaised, out);
    if (bytes == 0) {
      out += static_cast<char>(std::tolower(static_cast<unsigned char>(text.front())));
      bytes = 1;
    }
    afterRaised = raised;
    text.remove_prefix(bytes);
  }
  return out;
}

}  // namespace rackside
