// SPDX-License-Identifier: GPL-3.0-or-later
// The rough size of a blank whose surplus stays on: all of the wood that is cut free with it, as
// far as that is a rectangle and can be milled. Millimetres, board frame.
#pragma once

#include "core/plan/planner.h"

namespace rackside {

// How far a region reaches beyond a blank, in the blank's own directions.
struct Overhang {
  double beforeMm = 0, afterMm = 0;  // along it, at its two ends
  double belowMm = 0, aboveMm = 0;   // across it
  double alongMm() const { return beforeMm + afterMm; }
};
Overhang overhangOf(const Blank& blank, const Polygon& region);

// Grows a blank to the largest rectangle round it that the region holds; the pieces in it stay
// where they are. It stays as it was where the greater size could not be flattened to the
// thickness, or would leave a mark on that is planed away now.
class BlankGrowth {
 public:
  BlankGrowth(const PlanRequest& request, const Board& board);
  void grow(Blank& blank, const Polygon& region) const;

 private:
  bool canBeMilled(const Blank& before, const Blank& after) const;
  Polygon sureWood(const Polygon& region) const;

  const PlanRequest& request_;
  const Board& board_;
  Polygons usable_;
  double fromX_, toX_;  // between the trims of the rough ends
};

}  // namespace rackside
