// SPDX-License-Identifier: GPL-3.0-or-later
// Column generation over some boards: prices for the parts come from a master program over the
// layouts offered so far, each board is laid out by itself at those prices, and its layout becomes
// a new offer. For any prices π ≥ 0,
//   Σ π · wanted (demand.h) + Σ over boards of what its best layout pays at π
// is at least the worth of any plan; the least of it over all prices tried is the bound, true from
// the first round on whenever the search is stopped.
#pragma once

#include <functional>
#include <map>
#include <tuple>
#include <vector>

#include "core/plan/search/board_pricer.h"
#include "core/plan/search/master.h"

namespace rackside {

using Pricers = std::vector<BoardPricer*>;
using ShouldEnd = std::function<bool()>;

// All boards laid out by themselves at the same prices.
struct Pricing {
  std::vector<PricedLayouts> layouts;
  double ceiling = 0;  // no plan is worth more; meaningless when cut short
  bool whole = true;   // not cut short
};
Pricing priceBoards(const Pricers& pricers, const Demand& demand, const std::vector<double>& prices,
                    const PricerEffort& effort, const ShouldEnd& shouldEnd);

class PriceSearch {
 public:
  // Boards are numbered as in `pricers`.
  PriceSearch(Pricers pricers, Demand demand, ShouldEnd shouldEnd);

  void offer(Offer offer);
  // Better prices, more offers, a lower bound. True when nothing more can come of it: the master is
  // within closeEnough of the bound, or no board has a layout to offer.
  bool improve(int rounds, const PricerEffort& effort, double closeEnough);
  // More offers, of sections that the boards know already, until no board has one at the master's
  // prices; quick.
  void recombine();
  // A lower bound at the prices of the best one, by more effort.
  void tighten(const PricerEffort& effort);
  // Offers at prices moved by chance, a little for each board, by up to `most` a part; `chance`
  // gives 0…1.
  void scatter(const std::vector<double>& most, const PricerEffort& effort,
               const std::function<double()>& chance);
  // A whole choice among the offers that pays more than `atLeast`; one offer a board, empty ones
  // too. Nothing when there is none.
  std::vector<Offer> choose(double atLeast);
  // The same by a shorter search.
  std::vector<Offer> chooseSoon(double atLeast);
  // The same where only `boards` may change, or, for none, those that the master has otherwise.
  std::vector<Offer> chooseNear(const std::vector<Offer>& plan, const std::vector<int>& boards,
                                double atLeast);

  const Demand& demand() const { return demand_; }
  double bound() const { return bound_; }
  double masterValue() const { return masterValue_; }
  // Those that gave the bound.
  const std::vector<double>& prices() const { return bestPrices_; }
  const BoardPricer::Learnt& learntOf(int board) const { return bestLearnt_[board]; }
  // What no layout of the board pays more than at those prices.
  double ceilingOf(int board) const { return bestCeilings_[board]; }
  bool bounded() const { return !bestCeilings_.empty(); }
  const std::vector<Offer>& offers() const { return offers_; }
  // Those of the master as it stands now.
  std::vector<double> masterPrices();
  // How many panels of each way the master makes now.
  std::vector<double> wholePanels();
  // How many copies of each part it lays out.
  std::vector<double> copies();
  // How much of each offer the master takes now, 0…1.
  std::vector<double> fractions();

 private:
  void noteBound(const Pricing& pricing, const std::vector<double>& prices);
  int takeOffers(Pricing& pricing, const std::vector<double>& now);
  bool take(int board, PricedLayout& made, const std::vector<double>& now);

  Pricers pricers_;
  Demand demand_;
  ShouldEnd shouldEnd_;
  Master master_;
  std::vector<Offer> offers_;
  // Each offer's number by its board, parts and pay.
  std::map<std::tuple<int, std::vector<int>, double>, int> known_;
  std::vector<double> bestPrices_, bestCeilings_;
  std::vector<BoardPricer::Learnt> bestLearnt_;
  double bound_ = 1e300, masterValue_ = 0;
  double smoothing_ = 0;
};

}  // namespace rackside
