// SPDX-License-Identifier: GPL-3.0-or-later
// Which pieces of a plan the maker has pinned: kept in the plan's own file, under "pinned".
#pragma once

#include <vector>

#include "core/plan/plan.h"

namespace rackside {

bool isPinned(const Plan& plan, const PieceId& piece);
std::vector<PieceId> pinnedPieces(const Plan& plan);
Plan withPin(Plan plan, const PieceId& piece, bool pinned);

}  // namespace rackside
