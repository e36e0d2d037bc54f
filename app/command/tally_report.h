// SPDX-License-Identifier: GPL-3.0-or-later
// What the verb `tally` prints.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "core/trade/missing_wood.h"
#include "core/trade/nhla_grade.h"
#include "core/trade/rack_totals.h"

namespace rackside::command {

struct Tally {
  std::vector<TallyLine> lines;
  std::vector<std::optional<BoardGrade>> grades;  // beside the lines; empty when not asked for
  Shop shop;
  LengthStyle style;
  std::optional<Yield> yield;  // with a plan
  std::vector<std::pair<std::string, double>> costs;
  std::vector<MissingWood> missing;  // for the parts that are not placed
};

nlohmann::json tallyJson(const Tally& tally);
std::vector<std::string> tallyText(const Tally& tally);

}  // namespace rackside::command
