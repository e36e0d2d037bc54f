// SPDX-License-Identifier: GPL-3.0-or-later
// JSON as text that a person can read and a version-control program can compare: one key a line,
// lists of numbers and of points run on.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rackside {

// Fails on text that is not UTF-8 and on numbers that are not finite.
Result<std::string> jsonText(const nlohmann::json& document);
// Fails with the line and column of the fault.
Result<nlohmann::json> parseJson(std::string_view text);

}  // namespace rackside
