// SPDX-License-Identifier: GPL-3.0-or-later
// Marks as a careful maker would draw them over the true defects: a little larger, a little off,
// fewer points.
#pragma once

#include <string>
#include <vector>

#include "core/wood/mark.h"
#include "tests/support/scene.h"

namespace rackside::synthetic {

// In the board frame of face A, ids set ("mark-<stem>-<n>"), coordinates to 0.1 mm. What shows only
// on a face that was never looked at is left out. Sapwood becomes one polygon a band and a face.
struct FacesLookedAt {
  bool a = true, b = true;
};
std::vector<Mark> makerMarks(const PlacedBoard& board, const std::string& idStem,
                             const FacesLookedAt& looked);

}  // namespace rackside::synthetic
