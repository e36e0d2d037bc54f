// SPDX-License-Identifier: GPL-3.0-or-later
// A bound on any plan's value from areas alone: weak, but true of every way of cutting.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

// The most that any map can make a part worth, relative to plain wood.
double greatestGain(const PlanRequest& request, const Part& part, double lookWeight);

// The best-paying parts by worth per area until the sure wood of the boards in use is gone, the
// last one in part; looks are taken at their best.
double areaBound(const PlanRequest& request, const PlanOptions& options);

}  // namespace rackside
