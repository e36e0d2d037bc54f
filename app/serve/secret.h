// SPDX-License-Identifier: GPL-3.0-or-later
// Codes and tokens that nobody can guess.
#pragma once

#include <string>
#include <string_view>

namespace rackside::serve {

// 128 bits of the system's random source, as 32 hexadecimal digits.
std::string newSecret();

// Takes the same time wherever two secrets of one length differ, so that the time tells nothing.
bool sameSecret(std::string_view a, std::string_view b);

// 32 lower-case hexadecimal digits: the form of every secret and every id that a phone makes.
bool isSecretForm(std::string_view text);

}  // namespace rackside::serve
