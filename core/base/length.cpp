// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/length.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <numeric>
#include <optional>
#include <stdexcept>

#include "core/base/length_text.h"

namespace rackside {
namespace {

struct Unit {
  std::string_view word;
  double mm;
  bool imperial;
};
// The longer word first where one begins another.
constexpr std::array kUnits = {
    Unit{"millimetres", 1, false}, Unit{"millimeters", 1, false}, Unit{"mm", 1, false},
    Unit{"cm", 10, false},         Unit{"metres", 1000, false},   Unit{"meters", 1000, false},
    Unit{"m", 1000, false},        Unit{"inches", 25.4, true},    Unit{"inch", 25.4, true},
    Unit{"in", 25.4, true},        Unit{"\"", 25.4, true},        Unit{"feet", 304.8, true},
    Unit{"foot", 304.8, true},     Unit{"ft", 304.8, true},       Unit{"'", 304.8, true},
};
constexpr Unit kFeetLikeInches{"\"", 25.4, true};
constexpr double kLongestMm = 1e6;  // a kilometre: beyond it, a slip of the keyboard

struct Number {
  double value = 0;
  bool fraction = false;        // it held a slash
  bool maybeThousands = false;  // `1,200`
  bool maybeInches = false;     // `1.125`, which millimetres are not typed as
  size_t digits = 0;            // of a number without a mark, as typed
};

bool isDigit(char c) {
  return c >= '0' && c <= '9';
}

// Reads one length from left to right; `left` is what is still unread.
class LengthReader {
 public:
  LengthReader(std::string_view typed, std::string_view plain, UnitSystem bare)
      : typed_(typed), left_(plain), bare_(bare) {}

  Result<double> read() {
    double totalMm = 0;
    std::optional<Unit> before;
    skipSpaces();
    if (left_.empty()) return fail("is empty");
    if (left_.front() == '-') return fail("is negative");
    while (!left_.empty()) {
      const Result<Number> number = readNumber();
      if (!number) return number.error();
      const Result<Unit> unit = readUnit(*number, before);
      if (!unit) return unit.error();
      totalMm += number->value * unit->mm;
      before = *unit;
      skipSpaces();
      const bool dash = !left_.empty() && left_.front() == '-';
      if (dash) left_.remove_prefix(1);
      skipSpaces();
      if (dash && left_.empty()) return fail("ends with a dash where a number should stand");
    }
    if (totalMm > kLongestMm) return fail("is longer than a kilometre");
    return totalMm;
  }

 private:
  Error fail(const std::string& what) const {
    return Error{"The length \"" + std::string(typed_) + "\" " + what + ". Type " +
                 (bare_ == UnitSystem::inches ? "something like 23 5/8, 23.625 in or 600 mm."
                                              : "something like 600, 60.5 cm or 23 5/8 in.")};
  }
  void skipSpaces() {
    while (!left_.empty() && left_.front() == ' ') left_.remove_prefix(1);
  }

  Result<Number> readPlainNumber() {
    size_t end = 0;
    size_t mark = std::string_view::npos;
    while (end < left_.size() &&
           (isDigit(left_[end]) ||
            (mark == std::string_view::npos && (left_[end] == '.' || left_[end] == ',')))) {
      if (!isDigit(left_[end])) mark = end;
      ++end;
    }
    std::string digits(left_.substr(0, end));
    if (mark != std::string_view::npos && mark + 1 == end)
      return fail("has a \"" + std::string(1, digits[mark]) + "\" with no decimals behind it");
    if (mark != std::string_view::npos) digits[mark] = '.';
    Number number;
    if (mark == std::string_view::npos) end += takeThousands(end, digits);
    const auto [last, error] =
        std::from_chars(digits.data(), digits.data() + digits.size(), number.value);
    if (error != std::errc() || last != digits.data() + digits.size())
      return fail(left_.empty() ? "ends where a number should stand"
                                : "has \"" + std::string(left_) + "\" where a number should stand");
    number.maybeThousands = mark != std::string_view::npos && left_[mark] == ',' &&
                            end - mark == 4 && mark >= 1 && mark <= 3 && left_.front() != '0';
    number.maybeInches = mark == 1 && left_[mark] == '.' && end - mark == 4;
    if (mark == std::string_view::npos) number.digits = end;
    left_.remove_prefix(end);
    return number;
  }

  // `1 000`: groups of three after a space, where no unit or fraction can stand between. Appends
  // them to `digits` and says how much text they take.
  size_t takeThousands(size_t end, std::string& digits) const {
    if (end == 0 || end > 3) return 0;
    size_t taken = 0;
    for (size_t at = end; at + 4 <= left_.size() && left_[at] == ' '; at += 4) {
      const bool three = isDigit(left_[at + 1]) && isDigit(left_[at + 2]) && isDigit(left_[at + 3]);
      const bool more = at + 4 < left_.size() && isDigit(left_[at + 4]);
      size_t next = at + 4;
      while (next < left_.size() && left_[next] == ' ') ++next;
      if (!three || more || (next < left_.size() && left_[next] == '/')) break;
      digits += left_.substr(at + 1, 3);
      taken += 4;
    }
    return taken;
  }

  // `n/d` where the unread text begins with `/`.
  Result<Number> finishFraction(double numerator) {
    left_.remove_prefix(1);
    skipSpaces();
    const Result<Number> denominator = readPlainNumber();
    if (!denominator) return denominator.error();
    if (denominator->value == 0) return fail("divides by zero");
    Number number;
    number.value = numerator / denominator->value;
    number.fraction = true;
    return number;
  }

  // True when a whole number may be followed by a fraction here: `23 5/8`, `23-5/8`.
  bool fractionFollows() const {
    size_t i = 0;
    while (i < left_.size() && (left_[i] == ' ' || left_[i] == '-')) ++i;
    const size_t start = i;
    while (i < left_.size() && isDigit(left_[i])) ++i;
    if (start == 0 || i == start) return false;
    while (i < left_.size() && left_[i] == ' ') ++i;
    return i < left_.size() && left_[i] == '/';
  }

  Result<Number> readNumber() {
    Result<Number> first = readPlainNumber();
    if (!first) return first;
    if (fractionFollows()) {
      while (left_.front() == ' ' || left_.front() == '-') left_.remove_prefix(1);
      const Result<Number> top = readPlainNumber();
      if (!top) return top;
      skipSpaces();
      Result<Number> part = finishFraction(top->value);
      if (!part) return part;
      if (part->value >= 1) return fail("has a fraction of one or more after a whole number");
      if (first->value != std::floor(first->value)) return fail("mixes decimals with a fraction");
      part.value().value += first->value;
      return part;
    }
    const std::string_view before = left_;
    skipSpaces();
    if (!left_.empty() && left_.front() == '/') return finishFraction(first->value);
    left_ = before;
    return first;
  }

  Result<Unit> readUnit(const Number& number, const std::optional<Unit>& before) {
    skipSpaces();
    for (const Unit& unit : kUnits) {
      if (left_.substr(0, unit.word.size()) != unit.word) continue;
      left_.remove_prefix(unit.word.size());
      const bool letters = unit.word != "\"" && unit.word != "'";
      if (letters && !left_.empty() && left_.front() == '.') left_.remove_prefix(1);  // `12 in.`
      if (before && (before->imperial != unit.imperial || before->mm <= unit.mm))
        return fail("does not run from the greater unit to the smaller");
      if (number.maybeThousands && unit.mm <= 10 && !unit.imperial) return failThousands();
      return unit;
    }
    if (!left_.empty() && !isDigit(left_.front()))
      return fail("has \"" + std::string(left_) + "\", which is no unit known here");
    if (!left_.empty())
      return fail("has a number without a unit before \"" + std::string(left_) + "\"");
    return bareUnit(number, before);
  }

  Result<Unit> bareUnit(const Number& number, const std::optional<Unit>& before) const {
    if (before && before->imperial && before->mm > kFeetLikeInches.mm) {
      if (number.digits > 2) return fail("has \"'\" between groups of digits, as if for feet");
      return kFeetLikeInches;
    }
    if (before) return fail("ends with a number without a unit");
    if (bare_ == UnitSystem::inches) return kFeetLikeInches;
    if (number.fraction) return fail("is a fraction without a unit, and a bare number is in mm");
    if (number.maybeThousands) return failThousands();
    if (number.maybeInches)
      return fail("looks like inches or thousands, and a bare number is in mm: add the unit");
    return Unit{"mm", 1, false};
  }
  Error failThousands() const {
    return fail("may mean thousands or decimals: leave out the comma or use a point");
  }

  std::string_view typed_;
  std::string_view left_;
  UnitSystem bare_;
};

std::string fixedDecimals(double value, int decimals) {
  std::array<char, 400> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                          std::chars_format::fixed, decimals);
  if (error != std::errc()) throw std::logic_error("too many decimals for a length");
  std::string text(buffer.data(), end);
  if (text.find_first_of("123456789") == std::string::npos && text.front() == '-') text.erase(0, 1);
  return text;
}

std::string inchFraction(double mm, int denominator) {
  if (denominator < 1 || denominator > 64 || (denominator & (denominator - 1)) != 0)
    throw std::logic_error("an inch is divided into 1, 2, 4 … 64 parts");
  const long long parts = std::llround(std::abs(mm) / kMmPerInch * denominator);
  const long long whole = parts / denominator;
  const long long rest = parts % denominator;
  std::string text = mm < 0 && parts > 0 ? "-" : "";
  if (whole > 0 || rest == 0) text += std::to_string(whole);
  if (rest == 0) return text;
  if (whole > 0) text += ' ';
  const long long divisor = std::gcd(rest, static_cast<long long>(denominator));
  return text + std::to_string(rest / divisor) + '/' + std::to_string(denominator / divisor);
}

}  // namespace

Result<double> parseLengthMm(std::string_view text, UnitSystem bare) {
  const std::string plain = plainLengthText(text);
  return LengthReader(text, plain, bare).read();
}

std::string formatLength(double mm, const LengthStyle& style, bool withUnit) {
  if (!std::isfinite(mm)) throw std::logic_error("a length that is not a number");
  if (style.system == UnitSystem::millimetres)
    return fixedDecimals(mm, style.decimals) + (withUnit ? " mm" : "");
  return inchFraction(mm, style.denominator) + (withUnit ? "\"" : "");
}

}  // namespace rackside
