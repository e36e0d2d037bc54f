// SPDX-License-Identifier: GPL-3.0-or-later
// Surface measure, nominal thickness and board feet, by the rules of the National Hardwood Lumber
// Association. The exact figures stand beside them.
//
// Surface measure: actual width in inches × whole feet of length ÷ 12, to the nearest whole foot
// (NHLA 2019 ¶16, as quoted by goodwoodcorp.com, HardwoodGrading); halves go up and down in turn
// (older NHLA wording, from memory). Board feet: surface measure × nominal thickness in inches,
// below 1 in counted as 1 in.
#pragma once

#include <string>

#include "core/wood/board.h"

namespace rackside {

// Which way the next exact half foot goes: the first of a tally up, the next down.
struct HalfFeet {
  bool nextIsUp = true;
  bool turn() {
    nextIsUp = !nextIsUp;
    return !nextIsUp;
  }
};

// Lengths that differ by less are the same, so that what is read back from binary keeps its limit.
inline constexpr double kSameIn = 1e-6;

// Width that the rule takes: a tapering board is measured a third of its length from the narrow end
// (NHLA, from memory). The taper is that of the straight line through the chords, which is the mean
// of a board that only wavers.
double tallyWidthMm(const Outline& outline);
// The narrowest place (NHLA 2019 ¶10: minimum widths), the last inch at either end passed over.
double narrowestMm(const Outline& outline);

int surfaceMeasure(double widthMm, double lengthMm, HalfFeet& halves);
int surfaceMeasure(double widthMm, double lengthMm);  // of a board by itself: a half goes up
double surfaceMeasureExactFt2(const Outline& outline);

// The greatest standard thickness (NHLA 2019 ¶35, the list from memory) that a rough board reaches;
// kiln-dried it may be 1/16 in scant below 2 in and 1/8 in from 2 in on (NHLA 2023, page 56). 0
// when it is thinner than any.
double nominalThicknessIn(double roughThicknessMm, bool airDried = false);
// What it still measures surfaced on two sides: 4/4 13/16, 5/4 1-1/16, 6/4 1-5/16, 8/4 1-3/4 in
// (engineeringtoolbox.com, d_1462), others from memory.
double surfacedThicknessIn(double nominalThicknessInches);
std::string nominalName(double nominalThicknessInches);  // "5/4", "5/8"; "thin" for 0
// "8/4" as millimetres; empty for what is no standard thickness so named.
std::optional<double> thicknessFromQuarters(std::string_view said);

double boardFeet(int surfaceMeasureFt2, double nominalThicknessInches);
double boardFeetExact(const Outline& outline, double thicknessMm);

}  // namespace rackside
