// SPDX-License-Identifier: GPL-3.0-or-later
// What `scan` prints of a measured board.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "core/base/length.h"
#include "vision/scan/scan.h"

namespace rackside::command {

nlohmann::json scanJson(const ScanResult& result);
std::vector<std::string> scanLines(const ScanResult& result, const LengthStyle& style);
// One line: name, length, width in the middle, board feet.
std::string scanSummary(const Board& board, const LengthStyle& style);

}  // namespace rackside::command
