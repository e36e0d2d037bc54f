// SPDX-License-Identifier: GPL-3.0-or-later
// Will a mortise break through, and do two mortises hold a loose tenon? Common practice, no source.
#pragma once

#include <string>

#include "core/base/length.h"
#include "core/base/result.h"

namespace rackside {

// What has to stay between the bottom of a mortise and the far face, or another mortise.
inline constexpr double kLeastFloorMm = 3;

struct MortiseCheck {
  double memberThicknessMm = 0;
  double depthMm = 0;       // from one side
  double otherDepthMm = 0;  // from the side opposite, at the same spot; 0: none
};

struct MortiseResult {
  double leftMm = 0;  // before breaking through; below 0 it does
  bool breaksThrough = false;
  bool tooThin = false;  // holds, with less than kLeastFloorMm
  std::string advice;
};
Result<MortiseResult> checkMortise(const MortiseCheck& check, const LengthStyle& show);

struct LooseTenonCheck {
  double thinnerMm = 0;  // thickness of either member along the tenon, in any order
  double thickerMm = 0;
  double tenonNominalMm = 0;
  double tenonMeasuredMm = 0;  // 0: not measured; then it may be kTenonShortMm shorter than sold
  double glueRoomMm = 1;       // left at each end of the tenon
};
// A loose tenon may come shorter than it is sold; where nobody measured it, so much is allowed for
// (common practice, no source).
inline constexpr double kTenonShortMm = 1.5;

struct LooseTenonResult {
  bool fits = false;
  double depthInThinnerMm = 0;  // the shallower mortise goes in the thinner member
  double depthInThickerMm = 0;
  double leftInThinnerMm = 0;
  double leftInThickerMm = 0;
  double shortenByMm = 0;     // what the tenon is too long by when it does not fit
  double leastEngagedMm = 0;  // in the thinner member, were the tenon as short as it may be
  std::string advice;
};
Result<LooseTenonResult> checkLooseTenon(const LooseTenonCheck& check, const LengthStyle& show);

}  // namespace rackside
