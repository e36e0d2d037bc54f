// SPDX-License-Identifier: GPL-3.0-or-later
// A bound that counts whole panels.
//
// The master program makes shares of panels, which no plan can; and for least stock, where a copy
// left out counts for more than boards of wood, shares of copies that find no place. Here all plans
// are parted by how many copies of a panel (in all or in one way) or of a part they make: at most
// so many, or at least one more. Each part has prices and a bound of its own, and of all plans the
// greatest bound of the parts that are left. The part with the greatest is worked on next: its
// prices until nothing comes of them, then it is parted where its master program makes a share.
#pragma once

#include <memory>
#include <vector>

#include "core/plan/search/price_search.h"

namespace rackside {

class PanelTree {
 public:
  // `truePricers` for bounds whatever the grid. Starts with the offers, and bounded by the bounds,
  // of a search without limits.
  // `payOfCopy`: for least stock, of any part; else 0.
  PanelTree(Pricers pricers, Pricers truePricers, const PriceSearch& whole, double trueBound,
            double payOfCopy, ShouldEnd shouldEnd);

  // Works on one part; false when none is left that may hold more than bestPay + closeEnough.
  // `efforts` at given prices, from little to much.
  bool step(double bestPay, double closeEnough, const std::vector<PricerEffort>& efforts);
  double bound() const;      // for plans on the columns' grid
  double trueBound() const;  // whatever the grid
  // A part whose master program makes whole panels only, once; else null.
  std::unique_ptr<PriceSearch> takeWhole() { return std::move(whole_); }
  size_t open() const { return open_.size(); }

 private:
  using Offers = std::shared_ptr<const std::vector<Offer>>;
  struct Part {
    Demand demand;
    double bound = 0, trueBound = 0;
    Offers start;
    std::unique_ptr<PriceSearch> search;
    size_t level = 0;  // of effort
    int rounds = 0;    // at this level
  };

  void open(Part& part) const;
  void boundTruly(Part& part, PricerEffort effort) const;
  bool work(Part& part, double bestPay, double closeEnough, const PricerEffort& effort) const;
  bool split(const Part& part);
  bool splitByPart(const Part& part);
  void addBoth(const Part& parent, Demand fewer, Demand more);
  void close(const Part& part);

  Pricers pricers_, truePricers_;
  double payOfCopy_;
  ShouldEnd shouldEnd_;
  std::vector<std::unique_ptr<Part>> open_;
  double closedBound_ = -1e300, closedTrueBound_ = -1e300;
  std::unique_ptr<PriceSearch> whole_;
};

}  // namespace rackside
