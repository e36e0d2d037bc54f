// SPDX-License-Identifier: GPL-3.0-or-later
// The search over a whole rack: prices and bound for all boards together, whole choices from what
// was offered, and neighbourhoods of a few boards laid out anew.
#pragma once

#include <memory>
#include <random>

#include "core/plan/search/panel_tree.h"
#include "core/plan/search/price_search.h"
#include "core/plan/search/rack_problem.h"

namespace rackside {

class RackSearch {
 public:
  RackSearch(const RackProblem& problem, unsigned long long seed, ShouldEnd shouldEnd);

  // A plan to start from, one offer a board, and layouts that are known already.
  void startFrom(std::vector<Offer> plan, std::vector<Offer> pool);
  // Have the first prices settled?
  bool settled() const { return level_ > 0; }
  std::vector<Offer> offers() const;
  // One step of the search; false when it has nothing left to try.
  bool step();
  const std::vector<Offer>& best() const { return best_; }
  // A plan within `mostLoss` (share of the worth, or of the stock) of the best that has at least
  // `leastMoved` pieces of each of `before` on other boards; nothing when none was found.
  std::vector<Offer> otherThan(const std::vector<std::vector<Offer>>& before, double leastMoved,
                               double mostLoss);
  double payOf(const std::vector<Offer>& plan) const;
  double bestPay() const { return payOf(best_); }
  double atStake() const;                  // the worth, or the stock
  double gridBound() const;                // for plans on the columns' grid
  double bound() const { return bound_; }  // whatever the grid
  // Least stock: of plans with no more copies than the best.
  double boundOfCopies() const;
  size_t bytes() const;

 private:
  std::vector<int> copiesIn(const std::vector<Offer>& plan) const;
  bool takeIfBetter(std::vector<Offer> plan);
  void boundTruly(PricerEffort effort);
  bool boundMore();
  void boundCopies(const PricerEffort& effort);
  const Pricers& truePricers();
  double chance();
  std::vector<int> allBoards() const;
  bool offerEverySet();
  bool closed() const;
  double closeEnough() const;
  PricerEffort effort(int level) const;
  PricerEffort quickEffort() const;
  bool followBounds(const std::vector<double>& prices);
  void boundAt(const std::vector<double>& prices, const PricerEffort& effort);
  void tighten();
  void scatter();
  std::vector<Offer> dive(std::vector<int> boards, Demand demand, const std::vector<Offer>& pool);
  PriceSearch& primal() { return decided_ ? *decided_ : *search_; }
  void decide();
  bool leastStock() const { return problem_.payOfCopy > 0; }
  bool countsWhole() const { return leastStock() || !problem_.demand.panels.empty(); }
  bool stepInTree();
  void takeWhole(std::unique_ptr<PriceSearch> whole);
  std::vector<int> wholePanelsIn(const std::vector<Offer>& plan) const;
  std::vector<int> wholeNumbers(const std::vector<double>& shares);
  std::vector<Offer> surest(PriceSearch& search, const std::vector<int>& boards);
  void neighbourhood();
  void quickly();
  bool layOutAnew(const std::vector<int>& boards, bool fresh);
  void polish();
  bool takeTogether(const std::vector<Offer>& some);
  std::vector<int> someBoards(size_t count);

  RackProblem problem_;
  ShouldEnd shouldEnd_;
  std::mt19937_64 random_;
  int trueSplits_;  // of the next boundMore()
  std::vector<std::unique_ptr<BoardPricer>> owned_, ownedTrue_;
  Pricers pricers_, truePricers_;
  std::unique_ptr<PriceSearch> search_;
  std::unique_ptr<PriceSearch> decided_;  // the same, the numbers of panels fixed; null without any
  std::unique_ptr<PanelTree> tree_;       // with panels, once prices without limits have settled
  int sinceTree_ = 0;                     // neighbourhoods since its last step
  double wholeWorth_ = -1e300;            // least stock: what `decided_` pays, if of the tree
  std::vector<Offer> best_;
  double bound_ = 1e300;
  double copiesBound_ = 1e300, copiesBounded_ = -1;  // boundOfCopies(), and of how many
  bool asMaster_ = false;            // the next boundMore() asks at the master's prices
  std::vector<double> boundPrices_;  // that gave it
  double boundedAt_ = 1e300;         // the grid's bound when the true one was last reckoned
  int stale_ = 0;                    // neighbourhoods since the last better plan
  static constexpr int kLevels = 3;  // of effort a board at given prices
  int level_ = 0;
  int between_ = 0;  // neighbourhoods to try before the next level
  bool everySetOffered_ = false;
  bool toTighten_ = false;  // prices have settled at a level
};

}  // namespace rackside
