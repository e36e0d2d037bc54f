// SPDX-License-Identifier: GPL-3.0-or-later
// Plans of the same rack that lie elsewhere: the master program asked for so many pieces on
// other boards than an earlier plan has them, offers made at its prices, then a whole choice.
#pragma once

#include "core/plan/search/price_search.h"

namespace rackside {

class OtherPlans {
 public:
  // `offers`: what the search has found so far.
  OtherPlans(Pricers pricers, Demand demand, std::vector<Offer> offers, ShouldEnd shouldEnd);

  // A plan that pays more than `atLeast` and has at least `leastMoved` pieces of each plan in
  // `before` on other boards; one offer a board, nothing when none was found.
  std::vector<Offer> find(const std::vector<std::vector<Offer>>& before, double leastMoved,
                          double atLeast, const PricerEffort& effort);

 private:
  int offerMore(Master& master, const std::vector<Likeness>& limits, const PricerEffort& effort);
  std::vector<Offer> promisingOffers(const Master& master, double atLeast) const;

  Pricers pricers_;
  Demand demand_;
  std::vector<Offer> offers_;
  ShouldEnd shouldEnd_;
};

}  // namespace rackside
