// SPDX-License-Identifier: GPL-3.0-or-later
// SHA-256 (FIPS 180-4): the fingerprint by which a photograph is known again.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace rackside {

// 64 hexadecimal digits, lower case.
std::string sha256Hex(const std::vector<uint8_t>& bytes);

}  // namespace rackside
