// SPDX-License-Identifier: GPL-3.0-or-later
// The wood that one cut takes off, and whether a maker would make that cut. Millimetres, board
// frame.
#pragma once

#include "core/geometry/polygon.h"
#include "core/job/saw_rules.h"
#include "core/plan/plan.h"

namespace rackside {

// How thick a slice is, measured square to the cut that takes it off: where it is thinnest along
// the cut, and where it is thickest. Nothing there: 0 and 0.
struct Slice {
  double leastMm = 0, greatestMm = 0;
};
// `border`: what the cut leaves of its line to the slice, from one end of the wood to the other.
Slice sliceBeside(const Segment& border, const Polygon& slice);

// The part of a polygon that lies to the left of a directed line. A region that falls apart keeps a
// seam of no width.
Polygon leftPart(const Polygon& p, const Segment& line);
// Where the endless line meets the border of a polygon, first to last, in its own direction; the
// line as it is where it does not.
Segment chordOf(const Polygon& p, const Segment& line);

// Is this edge made straight on the jointer? A first rip that would run too near the rough edge is:
// it takes no kerf.
inline bool isJointed(const Cut& cut) {
  return cut.firstRip && cut.kerfMm == 0;
}

// May a rip take this off, and a crosscut? A wedge is no thin slice when it is thick enough at one
// end not to be left on.
bool mayBeRipped(const Slice& slice, const SawRules& rules);
bool mayBeCrosscut(const Slice& slice, const SawRules& rules);

}  // namespace rackside
