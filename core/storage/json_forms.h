// SPDX-License-Identifier: GPL-3.0-or-later
// The JSON form of each document, both ways. Errors name the key and what was expected there.
// Keys that this version does not know are kept in `extra`, those inside a nested object under that
// object's key, and are written back; see core/base/json_reader.h.
#pragma once

#include <nlohmann/json.hpp>

#include "core/base/result.h"
#include "core/document/rack.h"

namespace rackside {

nlohmann::json toJson(const Board& board);
nlohmann::json toJson(const Mark& mark);
nlohmann::json toJson(const std::vector<Part>& parts, const nlohmann::json& extra);
nlohmann::json toJson(const Shop& shop);
nlohmann::json toJson(const Plan& plan);
Result<Board> boardFromJson(const nlohmann::json& j);
Result<Mark> markFromJson(const nlohmann::json& j);
Result<std::vector<Part>> partsFromJson(const nlohmann::json& j);
// The unknown top-level keys of parts.json.
nlohmann::json partsExtraFromJson(const nlohmann::json& j);
Result<Shop> shopFromJson(const nlohmann::json& j);
Result<Plan> planFromJson(const nlohmann::json& j);

}  // namespace rackside
