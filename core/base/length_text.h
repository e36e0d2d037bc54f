// SPDX-License-Identifier: GPL-3.0-or-later
// The characters people and word processors put into lengths, brought to plain ASCII.
#pragma once

#include <string>
#include <string_view>

namespace rackside {

// Unicode fractions become " n/d", primes and curly quotes become ' and ", dashes become -, wide
// and narrow spaces become a space, letters become small, "''" becomes one ". Anything else is
// kept.
std::string plainLengthText(std::string_view text);

}  // namespace rackside
