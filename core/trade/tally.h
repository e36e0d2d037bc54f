// SPDX-License-Identifier: GPL-3.0-or-later
// Surface measure and board feet.
//
// Surface measure: actual width in inches × whole feet of length ÷ 12, rounded to the nearest whole
// (NHLA practice as quoted by goodwoodcorp.com, HardwoodGrading), a half upward (sources differ);
// board feet: surface measure × nominal thickness in inches, below 1 in counted as 1 in. The exact
// figures stand beside them.
#pragma once

#include <string>

#include "core/wood/board.h"

namespace rackside {

// Width that the rule takes on a board of uneven width: the mean over the middle of each third
// (common practice, no source).
double tallyWidthMm(const Outline& outline);
int surfaceMeasure(double widthMm, double lengthMm);
double surfaceMeasureExactFt2(const Outline& outline);
// 4/4, 5/4, 6/4, 8/4 … as inches: the nominal that a rough thickness is sold as, the greatest
// quarter it reaches within 1/16 in (common practice, no source).
double nominalThicknessIn(double roughThicknessMm);
std::string nominalName(double nominalThicknessInches);  // "5/4"
double boardFeet(int surfaceMeasureFt2, double nominalThicknessInches);
double boardFeetExact(const Outline& outline, double thicknessMm);

}  // namespace rackside
