// SPDX-License-Identifier: GPL-3.0-or-later
// Which regions are marks, of what kind, and how sure: regions that cover one another are judged
// against one another and the best is kept.
#pragma once

#include <vector>

#include "vision/wood/propose/regions.h"

namespace rackside {

enum class RegionKind : uint8_t {
  none,
  liveKnot,
  deadKnot,
  crackedKnot,
  crack,
  gum,
  pith,
  streak,
  hole,
  stain
};
inline constexpr int kRegionKinds = 10;

struct JudgedRegion {
  Region region;
  RegionKind kind = RegionKind::none;  // the likeliest that is not `none`
  double confidence = 0;               // that it is a mark at all, 0..1
};

// Surest first; none below `leastConfidence`.
std::vector<JudgedRegion> judgeRegions(const BoostedTrees& judge, std::vector<Region> regions,
                                       double leastConfidence);

}  // namespace rackside
