// SPDX-License-Identifier: GPL-3.0-or-later
// Where two sides of a board meet, and the line on which a side comes to its corner.
#pragma once

#include "vision/face/refine_edge.h"

namespace rackside {

// Next to a corner the two sides disturb each other.
inline constexpr double kCornerClearMm = 5;
// Off its line by that much, a side does not run on it.
inline constexpr double kCornerOffMm = 1.5;

struct SideLine {
  Point at, along;
  bool straight = false;  // over a stretch clear of the corner's surroundings
};

double offLine(const SideLine& line, Point p);

// Of the side's first stretch or its last. A side that is straight farther in is taken to be so up
// to its corner, unless it is clearly seen to run elsewhere there.
SideLine lineAtEnd(const std::vector<EdgePoint>& side, bool atStart);

// Where two sides meet, given by which end of each. A corner that neither side comes near to is not
// one: the middle between the sides' ends stands in.
Point cornerOf(const std::vector<EdgePoint>& a, bool startOfA, const std::vector<EdgePoint>& b,
               bool startOfB);

}  // namespace rackside
