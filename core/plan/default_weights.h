// SPDX-License-Identifier: GPL-3.0-or-later
// The weights that a shop gives a plan of these boards and parts. Its rules count wood and time in
// areas of parts, whatever the parts' values and the boards' prices are reckoned in.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

PlanWeights weightsFor(const Shop& shop, const std::vector<Board>& boards,
                       const std::vector<Part>& parts);

// Value of the looks that a cut saved may cost; next to nothing where wood counts for nothing
// either, so that plans judged by their parts alone lose none of that.
double worthOfCut(const Shop& shop, const std::vector<Part>& parts, const PlanWeights& weights);

}  // namespace rackside
