// SPDX-License-Identifier: GPL-3.0-or-later
// How a maker saws: which cuts can be made, what may stay on, and what wood and time count for.
// Every default is common practice, no source, with its reason beside it. They stand in the shop's
// file under the keys that ruleFields() lists.
#pragma once

#include <array>
#include <string_view>

#include "core/base/result.h"
#include "core/job/shop.h"

namespace rackside {

struct SawRules {
  // A slice of waste thinner than these pinches, flies or breaks off beside the blade. A first rip
  // nearer to the rough edge than this runs in and out of the wood: such an edge is jointed.
  double leastSliceLengthMm = 20;
  double leastSliceWidthMm = 6;
  double leastRipInMm = 4;
  // Surplus length below this stays on until the final cut to length, surplus width at a rough edge
  // below this until the final rip: each saves a cut, and neither is in a machine's way.
  double mostSurplusLengthMm = 75;
  double mostSurplusWidthMm = 25;
  // Rough sizes are set out in steps that a tape and a fence are set to.
  double roughLengthStepMm = 5;
  double roughWidthStepMm = 1;
  // Planed away beyond what milling needs, at most, where thinner stock has room: half an inch and
  // a little is a size of stock.
  double mostExcessThicknessMm = 14;
  // Wood opened, by its price: an area of the rack's average wood counts as this share of the same
  // area of parts. So little decides between plans that place the same parts, and hardly ever
  // against a look. Of that, a useful offcut gives back a share: it has to be found and used again.
  double woodWeight = 0.05;
  double offcutShare = 0.8;
  // What a cut saved is worth in looks, cm² of parts: half a minute at 10 cm² a minute.
  double cutWeightCm2 = 5;
};

struct RuleField {
  const char* key;
  const char* what;  // for messages
  double SawRules::*value;
  double least, greatest;
};
inline constexpr std::array kRuleFields{
    RuleField{"least_slice_length_mm", "thinnest slice along the board",
              &SawRules::leastSliceLengthMm, 0, 200},
    RuleField{"least_slice_width_mm", "thinnest slice across the board",
              &SawRules::leastSliceWidthMm, 0, 50},
    RuleField{"least_rip_in_mm", "least way of a first rip from the rough edge",
              &SawRules::leastRipInMm, 0, 50},
    RuleField{"most_surplus_length_mm", "surplus length that stays on",
              &SawRules::mostSurplusLengthMm, 0, 1000},
    RuleField{"most_surplus_width_mm", "surplus width that stays on", &SawRules::mostSurplusWidthMm,
              0, 200},
    RuleField{"rough_length_step_mm", "step of rough lengths", &SawRules::roughLengthStepMm, 0, 50},
    RuleField{"rough_width_step_mm", "step of rough widths", &SawRules::roughWidthStepMm, 0, 10},
    RuleField{"most_excess_thickness_mm", "thickness planed away beyond need",
              &SawRules::mostExcessThicknessMm, 0, 200},
    RuleField{"wood_weight", "weight of the wood", &SawRules::woodWeight, 0, 1000},
    RuleField{"offcut_share", "share that an offcut gives back", &SawRules::offcutShare, 0, 1},
    RuleField{"cut_weight_cm2", "weight of a cut", &SawRules::cutWeightCm2, 0, 10000},
};

// As the shop has them; what it does not say is as above.
SawRules sawRules(const Shop& shop);
// Fails on a rule that is no number within its limits, and, naming both, on two of which one cannot
// be kept beside the other.
Status validateSawRules(const Shop& shop);

}  // namespace rackside
