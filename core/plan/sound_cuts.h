// SPDX-License-Identifier: GPL-3.0-or-later
// Makes of a plan's cuts such as a maker can make (the shop's rules about slices and surplus)
// without moving a piece, so that nothing of its worth is lost: a cut that would take off a slice
// too thin, or a surplus that may as well come off last, is left out, and the blank beside it keeps
// that wood; a first rip too near the rough edge becomes an edge to joint. Cuts that were made
// stay.
//
// What cannot be mended so loses its piece: such a cut can be left out only where the longer cuts
// beside it meet no metal. Such pieces are taken out of the plan.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

void makeCutsSound(const PlanRequest& request, Plan& plan);

}  // namespace rackside
