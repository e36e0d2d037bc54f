// SPDX-License-Identifier: GPL-3.0-or-later
// What `plan` prints.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "core/document/rack.h"

namespace rackside::command {

nlohmann::json planJson(const Rack& rack, const Plan& plan);
// A plan beside the best one: what it loses and how far it differs.
nlohmann::json alternativeJson(const Rack& rack, const Plan& best, const Plan& other);
std::string alternativeLine(const Rack& rack, const Plan& best, const Plan& other);
std::vector<std::string> planLines(const Rack& rack, const Plan& plan, const LengthStyle& style);

}  // namespace rackside::command
