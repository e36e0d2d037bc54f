// SPDX-License-Identifier: GPL-3.0-or-later
// Steps of a side that no live edge makes.
#pragma once

#include <vector>

#include "vision/face/refine_edge.h"

namespace rackside {

// Where a side steps by more than 12 mm across within 40 mm along, one of the pieces that the step
// parts has run on along a shadow or a neighbour: all but the longest piece become unsure. For
// lower and upper sides.
void doubtBeyondSteps(std::vector<EdgePoint>& side);

}  // namespace rackside
