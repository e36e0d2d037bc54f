// SPDX-License-Identifier: GPL-3.0-or-later
// A wood of the shop's own as JSON.
#pragma once

#include <nlohmann/json.hpp>

#include "core/base/json_reader.h"
#include "core/wood/species.h"

namespace rackside {

nlohmann::json toJson(const Species& species);
Species readSpecies(JsonReader& r);

}  // namespace rackside
