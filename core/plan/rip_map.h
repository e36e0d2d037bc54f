// SPDX-License-Identifier: GPL-3.0-or-later
// A board seen along one rip direction.
//
// Rip frame: x stays the board's x, so that crosscuts stay upright; y is measured across the rip,
// y' = y cos a − x sin a. A blank of length l and width w lies in the upright box l cos a + w |sin
// a| by w. Columns start at the end trim; y' is not gridded.
//
// Two readings of the same columns. For plans, lengths are rounded up and every column that a blank
// meets must be free; for bounds, lengths are rounded down and only the columns that a blank surely
// covers count. So a plan is always possible, and a bound is never too low.
#pragma once

#include <vector>

#include "core/plan/blank_kind.h"
#include "core/plan/rip_directions.h"
#include "core/plan/tracks.h"

namespace rackside {

enum class Reading { forPlans, forBounds };

// What a kind asks of a direction's columns, counted from the column it starts in.
struct Footprint {
  bool fits = false;                  // the grain allows this direction
  int steps = 0;                      // from its start to that of the next section, cut included
  int coverFirst = 0, coverLast = 0;  // must be inside the outline
  int clearFirst = 0, clearLast = 0;  // must be free of marks
  double widthMm = 0;                 // rough
  double sideMm = 0;                  // from the rough side to the finished wood
  double roughLengthMm = 0;           // that the steps leave room for
};
Footprint footprintOf(const BlankKind& kind, double grainToleranceRad, double angleRad,
                      double cellMm, double crosscutKerfMm, Reading reading);
// What it asks, read for bounds, at whichever angle it lies of those that are taken for one;
// across, in the rip frame of that one.
Footprint footprintOver(const BlankKind& kind, double grainToleranceRad,
                        const RipDirection& direction, double cellMm, const Shop& shop);

// y' of a board point.
inline double acrossRip(Point p, double angleRad) {
  return p.y * std::cos(angleRad) - p.x * std::sin(angleRad);
}
// The board point with this x and y'.
inline Point fromRip(double x, double across, double angleRad) {
  return {x, (across + x * std::sin(angleRad)) / std::cos(angleRad)};
}

// Something drawn on the board, projected on the columns of a direction.
std::vector<Track> tracksAcross(const Polygons& drawn, double angleRad, const ColumnGrid& grid);
// The same for all that is not inside `wood`.
std::vector<Track> tracksOutside(const Polygons& wood, double angleRad, const ColumnGrid& grid);

// How far what stands in a direction's columns may shift across when the rip turns a little: so
// much for each column away from the pivot, which stays where it is.
struct Lean {
  double mmAColumn = 0;
  double pivot = 0;    // column
  double slackMm = 0;  // what stands in the way may reach this much less far
};

// Adds the union of the tracks over columns from…to, of each only what stays in the way whatever
// the lean; the result is neither sorted nor merged.
void addOver(const std::vector<Track>& tracks, int from, int to, const Lean& lean, Intervals& out);
void addOver(const std::vector<const Track*>& tracks, int from, int to, const Lean& lean,
             Intervals& out);

// The bottoms y' at which a width fits between `blocked` intervals (any order), each grown by
// −inset: [y + inset, y + width − inset] touches none. Ascending.
void gapsFor(Intervals& blocked, double width, double inset, Intervals& out);

// Adds what both hold.
void addIntersection(const Intervals& a, const Intervals& b, Intervals& out);

// What is left of `all` outside lo…hi.
Intervals without(const Intervals& all, double lo, double hi);

}  // namespace rackside
