// SPDX-License-Identifier: GPL-3.0-or-later
// A plan at once: every board is laid out in turn with the copies that the others leave.
//
// Hard parts (long, wide) find few places, and what is easy fits anywhere later, so their worth is
// raised for the first turn; a second turn with true worth fills what that left open. Two boards
// are laid out at a time against the same leftover; what the second then lacks is filled again.
#pragma once

#include "core/plan/search/rack_problem.h"

namespace rackside {

// One offer a board; those that `start` keeps as they are stay.
std::vector<Offer> firstPlan(const RackProblem& problem, std::vector<Offer> start);

}  // namespace rackside
