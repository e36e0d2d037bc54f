// SPDX-License-Identifier: GPL-3.0-or-later
// What a grade says of a face besides its cuttings: pith, wane, splits, knots, the first foot,
// warp.
#pragma once

#include <string>

#include "core/trade/grade_map.h"
#include "core/trade/grade_marks.h"

namespace rackside {

// Why the face misses the grade; empty when it does not.
std::string limitMissed(Grade grade, const GradedBoard& on, Face face, const GradeMap& clear,
                        const GradeMap& sound);

// Can it be surfaced on two sides to its standard thickness (hooddistribution.com: the entire board
// must be flat enough)? Bow and cup take their whole height, twist half of it, since it is shared
// between opposite corners. A board of unknown thickness passes.
bool surfacesFlat(const GradedBoard& on);

// Wane on the No. 1 Common face of a board of FAS One Face or Selects: the widest of both edges
// added together at most a third of the width, and at most half the length along either (NHLA 2019
// ¶64; hooddistribution.com).
bool waneFitsOneFace(const GradedBoard& on, Face face);

// Walnut and butternut of 6 and 7 ft are FAS by counting standard defects: one up to 7 in wide, two
// from 8 in on, besides wane along half an edge and 6 in of split (ttjonline.com; a standard defect
// taken as 1 1/4 in across, a larger one as several, from memory).
bool fasByDefectCount(const GradedBoard& on, Face face);
bool isGradedByDefectCount(const GradedBoard& on);

}  // namespace rackside
