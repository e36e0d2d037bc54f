// SPDX-License-Identifier: GPL-3.0-or-later
// What has to be bought for the parts that the plan could not place.
#pragma once

#include <string>
#include <vector>

#include "core/document/rack.h"

namespace rackside {

struct MissingWood {
  std::string species;   // empty: any
  double nominalIn = 0;  // the least standard thickness that the parts come out of
  int copies = 0;
  double neededBoardFeet = 0;  // in the parts, at that thickness
  double boardFeet = 0;        // to buy, with the yield below
  double yieldShare = 0;
  bool yieldFromPlan = false;  // the plan's own; else the usual share
};

// The share of bought wood that ends in parts where no plan tells: 30 % waste is what common grades
// are bought with (woodmagazine.com).
inline constexpr double kUsualYieldShare = 0.7;

// By species and thickness; empty without a plan, or when all is placed. A part's rough thickness
// is its finished one with the shop's allowance.
std::vector<MissingWood> missingWood(const Rack& rack);
std::string missingWoodText(const MissingWood& missing);

}  // namespace rackside
