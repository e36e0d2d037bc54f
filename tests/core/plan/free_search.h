// SPDX-License-Identifier: GPL-3.0-or-later
// Plans of small racks by chance: sections anywhere at any angle that a board is ripped at, any
// number of copies in a blank, holes milled away, nothing on columns. It shares nothing with the
// planner but that list of angles and what boards, parts and the shop's figures mean, so that its
// best value may be held against the planner's bound.
#pragma once

#include "core/plan/planner.h"

namespace rackside::testing {

// Boards with straight, tapered or crooked edges, round knots, a check's region to avoid, shallow
// holes; plain parts. What FreeSearch understands.
PlanRequest freeRack(unsigned seed);

// The best value that so many plans by chance reach.
double freeSearch(const PlanRequest& request, int plans, unsigned seed);

}  // namespace rackside::testing
