// SPDX-License-Identifier: GPL-3.0-or-later
// What `rackside rank` prints and the pictures it writes.
#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "core/base/length.h"
#include "core/document/rack.h"
#include "vision/wood/rank/rank.h"

namespace rackside::command {

nlohmann::json rankJson(const Rack& rack, const Part& part, const Ranking& ranking);
std::vector<std::string> rankLines(const Rack& rack, const Part& part, const Ranking& ranking,
                                   const LengthStyle& style);

// One picture a place (finished part, true to scale, as it might look planed), and all of them side
// by side in side-by-side.png. Returns the files, as ranking.places, side by side last.
Result<std::vector<std::filesystem::path>> writeRankPictures(
    const Rack& rack, const Part& part, const Ranking& ranking,
    const std::filesystem::path& rackFolder, const std::filesystem::path& folder,
    RunControl& control);

}  // namespace rackside::command
