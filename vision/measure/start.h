// SPDX-License-Identifier: GPL-3.0-or-later
// Inside the adjustment: first values, good enough that least squares falls into the right hollow.
//
// Each photograph by itself: every target's pose under the prior lens (infinitesimal plane-based
// pose estimation, both mirror solutions; Collins and Bartoli, 2014) proposes a plane, on which all
// its targets are placed; the best proposals are refined and the one that fits best wins. The
// photographs are then laid over each other by the targets they share.
#pragma once

#include <vector>

#include "vision/measure/unknowns.h"

namespace rackside::measure {

// One photograph's own view of the plane, in a frame of its own.
struct PlaneView {
  PoseBlock camera{};
  std::vector<std::optional<PlaceBlock>> places;  // by piece, of those seen here
  double cost = 0;                                // robust, as solve() gives it
};

// Best first; more than one where the mirror solution fits nearly as well.
Result<std::vector<PlaneView>> viewsOf(const Scene& scene, int photo);

// Lays the photographs over each other, each by the view given. Fails with which photograph shares
// no target with the rest.
Result<Unknowns> chain(const Scene& scene, const std::vector<PlaneView>& viewOfPhoto);

}  // namespace rackside::measure
