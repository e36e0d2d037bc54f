// SPDX-License-Identifier: GPL-3.0-or-later
// How many panels a plan makes in each way.
#include <algorithm>
#include <cmath>

#include "core/plan/search/rack_search.h"

namespace rackside {
namespace {

constexpr double kDecide = 0.3;  // least share of a panel that may be made, by chance
constexpr int kRoundsADecision = 3;
constexpr int kTreeEvery = 2;

}  // namespace

// How many panels to make in each way: about as many as the master does, which way by chance where
// it makes shares.
std::vector<int> RackSearch::wholeNumbers(const std::vector<double>& shares) {
  std::vector<int> made;
  auto share = shares.begin();
  for (const WantedPanel& panel : problem_.demand.panels) {
    double rest = 0;
    std::vector<double> parts;
    for (size_t w = 0; w < panel.ways.size() && share != shares.end(); ++w, ++share) {
      made.push_back(static_cast<int>(std::floor(*share + 1e-6)));
      parts.push_back(std::max(0.0, *share - made.back()));
      rest += parts.back();
    }
    for (int more = static_cast<int>(rest + kDecide + (1 - 2 * kDecide) * chance()); more > 0;
         --more) {
      double pick = chance() * rest;
      size_t w = 0;
      while (w + 1 < parts.size() && pick >= parts[w]) pick -= parts[w++];
      ++made[made.size() - parts.size() + w];
      rest -= parts[w];
      parts[w] = 0;
    }
  }
  return made;
}

std::vector<int> RackSearch::wholePanelsIn(const std::vector<Offer>& plan) const {
  const std::vector<int> copies = copiesIn(plan);
  std::vector<int> made;
  for (const WantedPanel& panel : problem_.demand.panels) {
    int open = panel.copies;
    for (const PanelWay& way : panel.ways) {
      const int strips = copies[way.part] + problem_.demand.heldOf(way.part);
      made.push_back(std::min(open, strips / way.strips));
      open -= made.back();
    }
  }
  return made;
}

// Shares of panels are worth nothing: fixes how many are made in each way, about as the master has
// them, and asks for offers for that. Of two choices the one stays that leaves more.
void RackSearch::decide() {
  const std::vector<double> shares = search_->wholePanels();
  Demand demand = problem_.demand;
  demand.decide(wholeNumbers(shares));
  auto fresh = std::make_unique<PriceSearch>(pricers_, demand, shouldEnd_);
  const auto give = [&](const std::vector<Offer>& offers) {
    for (const Offer& o : offers)
      if (demand.fits(o.parts)) fresh->offer(o);
  };
  give(search_->offers());
  if (decided_) give(decided_->offers());
  fresh->improve(kRoundsADecision, quickEffort(), closeEnough());
  if (!decided_ || fresh->masterValue() > decided_->masterValue()) decided_ = std::move(fresh);
}

// One of a few steps goes to the tree of whole panels; false when it is not its turn or it has none
// to take.
bool RackSearch::stepInTree() {
  if (!tree_)
    tree_ = std::make_unique<PanelTree>(pricers_, truePricers(), *search_, bound_,
                                        problem_.payOfCopy, shouldEnd_);
  if (++sinceTree_ % kTreeEvery != 0) {
    if (tree_->open() == 0) return false;
    neighbourhood();
    return true;
  }
  if (!tree_->step(bestPay(), closeEnough(), {effort(0), effort(1), effort(2)})) return false;
  bound_ = std::min(bound_, tree_->trueBound());
  if (auto whole = tree_->takeWhole()) takeWhole(std::move(whole));
  return true;
}

// Dives where the panels are whole already. For least stock the best of such searches is kept: only
// there are copies not in shares, which choices among offers cannot see through.
void RackSearch::takeWhole(std::unique_ptr<PriceSearch> whole) {
  takeIfBetter(whole->choose(bestPay()));
  if (whole->masterValue() <= bestPay() + closeEnough()) return;
  std::swap(decided_, whole);
  takeTogether(dive(allBoards(), primal().demand(), primal().offers()));
  if (leastStock() && wholeWorth_ > decided_->masterValue())
    std::swap(decided_, whole);
  else
    wholeWorth_ = decided_->masterValue();
}

}  // namespace rackside
