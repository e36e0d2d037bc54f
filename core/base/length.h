// SPDX-License-Identifier: GPL-3.0-or-later
// Lengths at the edges of the program. Inside everything is millimetres (double).
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rackside {

inline constexpr double kMmPerInch = 25.4;  // exact, international yard and pound agreement of 1959

enum class UnitSystem { millimetres, inches };

// How a person wants lengths shown: millimetres with `decimals`, or inches in fractions of
// 1/`denominator` (a power of two, 1 to 64).
struct LengthStyle {
  UnitSystem system = UnitSystem::millimetres;
  int decimals = 0;
  int denominator = 16;
};

// Reads what a maker types: `600`, `600mm`, `60 cm`, `1.2m`, `23 5/8`, `23-5/8"`, `7/8 in`, `2' 3
// 1/2"`, `23.625in`, `1 000 mm`, `12 in.`, with a comma or a point. A bare number is in `bare`.
// What may mean two things (`1,200`, `1'000`, `1.125` where a bare number is in mm) is refused with
// a question. Fails with what was not understood and what was expected.
Result<double> parseLengthMm(std::string_view text, UnitSystem bare);

// `595 mm` or `23 7/16"`; without the unit when withUnit is false.
std::string formatLength(double mm, const LengthStyle& style, bool withUnit = true);

}  // namespace rackside
