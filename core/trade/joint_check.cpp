// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/joint_check.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

bool positive(double v) {
  return std::isfinite(v) && v > 0;
}

}  // namespace

Result<MortiseResult> checkMortise(const MortiseCheck& c, const LengthStyle& show) {
  if (!positive(c.memberThicknessMm) || !positive(c.depthMm) || !(c.otherDepthMm >= 0))
    return Error{"Give the member's thickness and the mortise's depth, both more than 0."};
  MortiseResult r;
  r.leftMm = c.memberThicknessMm - c.depthMm - c.otherDepthMm;
  r.breaksThrough = r.leftMm <= 0;
  r.tooThin = !r.breaksThrough && r.leftMm < kLeastFloorMm;
  const std::string between = c.otherDepthMm > 0 ? "between the two mortises" : "below the mortise";
  if (r.breaksThrough)
    r.advice = "It breaks through by " + formatLength(-r.leftMm, show) +
               ". Make it shallower, or move one of two along.";
  else
    r.advice = formatLength(r.leftMm, show) + " are left " + between +
               (r.tooThin ? "; that is thin, set the depth stop on waste first." : ".");
  return r;
}

Result<LooseTenonResult> checkLooseTenon(const LooseTenonCheck& c, const LengthStyle& show) {
  if (!positive(c.thinnerMm) || !positive(c.thickerMm) || !positive(c.tenonNominalMm) ||
      !(c.tenonMeasuredMm >= 0) || !(c.glueRoomMm >= 0))
    return Error{"Give both members' thickness and the tenon's length, each more than 0."};
  const double thin = std::min(c.thinnerMm, c.thickerMm);
  const double thick = std::max(c.thinnerMm, c.thickerMm);
  const double tenon = c.tenonMeasuredMm > 0 ? c.tenonMeasuredMm : c.tenonNominalMm;
  const double wanted = tenon + 2 * c.glueRoomMm;
  LooseTenonResult r;
  r.depthInThinnerMm = std::clamp(thin - kLeastFloorMm, 0.0, wanted / 2);
  const double deepest = std::max(thick - kLeastFloorMm, 0.0);
  r.depthInThickerMm = std::min(wanted - r.depthInThinnerMm, deepest);
  r.leftInThinnerMm = thin - r.depthInThinnerMm;
  r.leftInThickerMm = thick - r.depthInThickerMm;
  r.shortenByMm = std::max(0.0, wanted - r.depthInThinnerMm - r.depthInThickerMm);
  r.fits = r.shortenByMm <= 1e-9;
  const double shortest = c.tenonMeasuredMm > 0 ? tenon : std::max(0.0, tenon - kTenonShortMm);
  r.leastEngagedMm = std::max(0.0, shortest - r.depthInThickerMm);
  if (!r.fits)
    r.advice = "The tenon is too long by " + formatLength(r.shortenByMm, show) + "; shorten it.";
  else
    r.advice = "Mortise " + formatLength(r.depthInThinnerMm, show) +
               " deep in the thinner member, " + formatLength(r.depthInThickerMm, show) +
               " in the thicker." +
               (c.tenonMeasuredMm > 0 ? "" : " Measure the tenon: it may be shorter than sold.");
  return r;
}

}  // namespace rackside
