// SPDX-License-Identifier: GPL-3.0-or-later
// What the overview says of a plan beside its boards.
#pragma once

#include "app/sheets/table.h"

namespace rackside::sheets {

// What found no place, panels strip by strip, remarks; none without a plan.
std::vector<Table> planTables(const PackInput& input);

}  // namespace rackside::sheets
