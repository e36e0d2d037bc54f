// SPDX-License-Identifier: GPL-3.0-or-later
// The rigid motion that lays one outline on another.
#pragma once

#include "core/geometry/shapes.h"

namespace rackside {

struct RigidMatch {
  Pose targetFromSource;
  double misfitMm = 0;  // root mean square distance of the better 85 %, after the motion
};

// Closest points, from the position in which the boxes coincide; both polygons lie along x. The
// worst 15 % (wane, a chipped end) have no say.
RigidMatch matchOutlines(const Polygon& target, const Polygon& source);

}  // namespace rackside
