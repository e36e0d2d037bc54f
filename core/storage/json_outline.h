// SPDX-License-Identifier: GPL-3.0-or-later
// The measured part of a board in JSON. Long lists stand as parallel arrays, which keeps a file of
// a thousand vertices short and readable.
#pragma once

#include <nlohmann/json.hpp>
#include <string_view>

#include "core/base/json_reader.h"
#include "core/wood/board.h"

namespace rackside {

nlohmann::json outlineJson(const Outline& outline);
nlohmann::json widthsJson(const std::vector<Measured>& widths);
nlohmann::json measuredJson(const Measured& measured);
Outline readOutline(JsonReader& reader);
std::vector<Measured> readWidths(JsonReader& reader);
Measured readMeasured(JsonReader& reader);

// Fit to be the name of a folder on any system: letters, digits, dash and underscore, 1 to 100.
bool isFolderName(std::string_view text);

}  // namespace rackside
