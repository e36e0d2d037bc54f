// SPDX-License-Identifier: GPL-3.0-or-later
// How far two plans of one rack differ.
#pragma once

#include "core/plan/plan.h"

namespace rackside {

// Share (0…1) of the pieces of `before` that lie on another board in `after`, or nowhere. Copies of
// one part are alike: two that change places make no difference.
double shareElsewhere(const Plan& before, const Plan& after);

}  // namespace rackside
