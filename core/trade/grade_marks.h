// SPDX-License-Identifier: GPL-3.0-or-later
// What a mark is to the grading rule, on a board of its thickness and wood.
#pragma once

#include "core/trade/grade_rules.h"
#include "core/wood/board.h"

namespace rackside {

// What the rule asks of a board besides its marks.
struct GradedBoard {
  const Board& board;
  GradingRule rule = GradingRule::standard;
  double nominalIn = 1;
  int surfaceMeasureFt2 = 0;
  double widthIn = 0;  // by its narrowest place
  double lengthIn = 0;
};

// Is it one that the rule looks at? Not a suggestion, nor what goes when the board is surfaced to
// its standard rough thickness (NHLA ¶4): what lies no deeper than the board is thicker than that,
// both faces together.
bool isConsidered(const Mark& mark, const GradedBoard& on);

// Average of length and width, inches.
double averageDiameterIn(const Mark& mark, Face face);

// Does a mark keep a cutting from being clear; is it unsound, so that it spoils a sound cutting, or
// the back of a clear one?
//   Sapwood counts against neither. A knot of unknown soundness counts as unsound. Pin, shot and
// spot holes (below 1/4 in) are sound (NHLA 2019 ¶31), larger ones are taken as unsound: the few
// that the paragraph admits by the size of a cutting are not counted. Ordinary season checks, those
// of unknown depth and those that surfacing takes away, are admitted in clear cuttings (¶4, ¶30,
// from memory); deeper ones are no more than sound. Cherry admits gum, and pin knots up to 1/8 in
// (experts123.com, quoting the trade's council).
bool spoilsClear(const Mark& mark, const GradedBoard& on);
bool isUnsound(const Mark& mark, const GradedBoard& on);

}  // namespace rackside
