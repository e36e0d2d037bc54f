// SPDX-License-Identifier: GPL-3.0-or-later
// The angles at which the sections of a board may be ripped: the one place that says so, for plans,
// for their bound and for the checker. Radians from the board's axis.
//
// The checker takes any angle up to the steepest. Plans are looked for along the axis, the board's
// edges and those of its halves. Bounds are reckoned for ranges of angles, which together hold all,
// and which are halved where it matters; the middles of those are where plans are looked for next.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "core/wood/board.h"

namespace rackside {

// Steeper than grain is wanted to run off anywhere. (Common practice, no source.)
inline constexpr double kSteepestRipRad = 5 * std::numbers::pi / 180;
// More than angles are rounded by when a plan is stored.
inline constexpr double kAngleSlackRad = 1e-5;

// One angle, or all from one to another.
struct RipDirection {
  double angleRad = 0;  // the middle
  double halfRad = 0;   // of a range
  int halves = -1;      // a range's lower half, its upper one after it; −1: it is not halved

  double fromRad() const { return angleRad - halfRad; }
  double toRad() const { return angleRad + halfRad; }
  double nearestToAxis() const { return std::max(0.0, std::abs(angleRad) - halfRad); }
  double farthestFromAxis() const { return std::abs(angleRad) + halfRad; }
  // Most that y' changes for a millimetre along when a rip in the middle turns to any of them.
  double leanPerMm() const {
    const double middle = std::tan(angleRad);
    return std::max(std::tan(toRad()) - middle, middle - std::tan(fromRad()));
  }
};

struct RipDirections {
  std::vector<RipDirection> all;  // angles for plans, then ranges for bounds
  int forPlans = 0;               // the first so many
  std::vector<int> ranges;        // that together hold all angles, not yet halved
};

// `more`: angles that must be among those for plans, whatever the wood.
RipDirections ripDirections(const Outline& outline, const std::vector<double>& more = {});

}  // namespace rackside
