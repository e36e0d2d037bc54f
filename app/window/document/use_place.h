// SPDX-License-Identifier: GPL-3.0-or-later
// A place that was chosen by its looks, as a piece of the plan: to be pinned and planned round.
#pragma once

#include <optional>

#include "core/document/rack.h"
#include "vision/wood/rank/rank.h"

namespace rackside {

struct PlacedThere {
  Plan plan;
  PieceId piece;
};
// The rack's plan with one copy of the part at this place: one that has no place yet, or else one
// that is not cut and gives up its own. Its cuts are not yet true. None when every copy is cut.
std::optional<PlacedThere> withPieceAt(const Rack& rack, const Part& part, const Placement& place);

}  // namespace rackside
