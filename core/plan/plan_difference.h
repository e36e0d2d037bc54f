// SPDX-License-Identifier: GPL-3.0-or-later
// How far two plans of one rack differ.
#pragma once

#include "core/plan/plan.h"

namespace rackside {

// Share (0…1) of the pieces of `before` that lie on another board in `after`. A piece that is left
// out lies nowhere else, and copies of one part are alike: two that change places make no
// difference.
double shareElsewhere(const Plan& before, const Plan& after);

// What `other` is better at than `plan`, in plain words, the weightiest first; empty when at
// nothing that is counted. `boards`: of the rack.
std::vector<std::string> betterAt(const std::vector<Board>& boards, const Plan& plan,
                                  const Plan& other);

}  // namespace rackside
