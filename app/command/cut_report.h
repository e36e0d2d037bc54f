// SPDX-License-Identifier: GPL-3.0-or-later
// What `cut` prints.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "core/document/rack.h"

namespace rackside::command {

// The cuts still to be made, the riskiest first, and the spare stock of what shows; `board` null:
// all boards.
nlohmann::json cutListJson(const Rack& rack, const Board* board);
std::vector<std::string> cutListLines(const Rack& rack, const Board* board,
                                      const LengthStyle& style);

// What a new plan changes for each wanted copy: lost its place, found another, or was placed.
struct PlanChange {
  PartId part;
  int copy = 1;
  const Piece* before = nullptr;
  const Piece* after = nullptr;
};
std::vector<PlanChange> changesBetween(const Plan& before, const Plan& after);
nlohmann::json changesJson(const Rack& rack, const std::vector<PlanChange>& changes);
std::vector<std::string> changeLines(const Rack& rack, const std::vector<PlanChange>& changes);

}  // namespace rackside::command
