// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers as text, whatever the computer's language: a point on writing, a point or a comma on
// reading.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rackside {

// "12.50"; never "-0.00".
std::string fixedText(double value, int decimals);

// The number that the whole text is, spaces round it aside; `7,5` is 7.5, and thousands stand
// without marks. Empty for any other text, and for what is not finite.
std::optional<double> numberFrom(std::string_view text);

}  // namespace rackside
