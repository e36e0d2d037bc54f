// SPDX-License-Identifier: GPL-3.0-or-later
// Plans of the same rack that lie elsewhere: the master program with a limit on how many pieces may
// stay on the board where an earlier plan has them, offers made at its prices, then a whole choice.
#pragma once

#include "core/plan/search/price_search.h"

namespace rackside {

class OtherPlans {
 public:
  // `offers`: what the search has found so far.
  OtherPlans(Pricers pricers, Demand demand, std::vector<Offer> offers, ShouldEnd shouldEnd);

  // A plan that pays more than `atLeast` and keeps at most `mostKept` pieces of each plan in
  // `before` on their boards; one offer a board, nothing when none was found.
  std::vector<Offer> find(const std::vector<std::vector<Offer>>& before, double mostKept,
                          double atLeast, const PricerEffort& effort);

 private:
  int offerMore(Master& master, const std::vector<Likeness>& limits, const PricerEffort& effort);

  Pricers pricers_;
  Demand demand_;
  std::vector<Offer> offers_;
  ShouldEnd shouldEnd_;
};

}  // namespace rackside
