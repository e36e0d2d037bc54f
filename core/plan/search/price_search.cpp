// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/price_search.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>

#include "core/base/each_in_parallel.h"

namespace rackside {
namespace {

// Prices are asked for between the master's and the best so far, which swings less; where that
// finds no offer, the master's own are asked for next.
constexpr double kSmoothing = 0.6;
// Rounds over known sections; more than a few dozen are seldom of use.
constexpr int kMostRecombining = 20;
constexpr double kLittle = 1e-3;  // of a board

}  // namespace

Pricing priceBoards(const Pricers& pricers, const Demand& demand, const std::vector<double>& prices,
                    const PricerEffort& effort, const ShouldEnd& shouldEnd) {
  Pricing all;
  all.layouts.resize(pricers.size());
  std::array<PathSpace, 2> spaces;
  std::atomic<bool> whole{true};
  eachInParallel(static_cast<int>(pricers.size()), [&](int b, int thread) {
    if (whole && !shouldEnd())
      all.layouts[b] = pricers[b]->solve({prices}, demand.left, effort, spaces[thread], shouldEnd);
    else
      whole = false;
  });
  all.whole = whole;
  all.ceiling = demand.ceiling(prices);
  for (const PricedLayout& l : all.layouts) all.ceiling += std::max(0.0, l.ceiling);
  return all;
}

PriceSearch::PriceSearch(Pricers pricers, Demand demand, ShouldEnd shouldEnd)
    : pricers_(std::move(pricers)),
      demand_(std::move(demand)),
      shouldEnd_(std::move(shouldEnd)),
      master_(static_cast<int>(pricers_.size()), demand_),
      bestPrices_(demand_.left.size(), 0) {}

void PriceSearch::offer(Offer offer) {
  if (offer.parts.empty()) return;
  const int number = static_cast<int>(offers_.size());
  if (!known_.try_emplace({offer.board, offer.parts, offer.pay}, number).second) return;
  master_.add(offer);
  offers_.push_back(std::move(offer));
}

// Takes a layout as an offer if the master program may gain by it.
bool PriceSearch::take(int board, PricedLayout& made, const std::vector<double>& now) {
  double gain = made.worth - master_.boardPrice(board);
  for (const int part : made.parts) gain -= now[part];
  if (gain <= 1e-6 * (1 + made.worth)) return false;
  offer({board, std::move(made.parts), made.worth, std::move(made.layout), false});
  return true;
}

int PriceSearch::takeOffers(Pricing& pricing, const std::vector<double>& now) {
  int taken = 0;
  for (size_t b = 0; b < pricers_.size(); ++b) {
    PricedLayouts& made = pricing.layouts[b];
    taken += take(static_cast<int>(b), made, now) ? 1 : 0;
    for (PricedLayout& other : made.others) taken += take(static_cast<int>(b), other, now) ? 1 : 0;
  }
  return taken;
}

void PriceSearch::recombine() {
  for (int round = 0; round < kMostRecombining && !shouldEnd_() && master_.solve(); ++round) {
    const std::vector<double> now = master_.prices();
    Pricing pricing;
    pricing.layouts.resize(pricers_.size());
    eachInParallel(static_cast<int>(pricers_.size()), [&](int b, int) {
      static_cast<PricedLayout&>(pricing.layouts[b]) = pricers_[b]->recombine({now}, demand_.left);
    });
    if (takeOffers(pricing, now) == 0) return;
  }
}

bool PriceSearch::improve(int rounds, const PricerEffort& effort, double closeEnough) {
  for (int round = 0; round < rounds && !shouldEnd_(); ++round) {
    recombine();
    if (!master_.solve()) return true;
    masterValue_ = master_.value();
    const std::vector<double> now = master_.prices();
    std::vector<double> asked = now;
    for (size_t p = 0; p < now.size(); ++p)
      asked[p] = smoothing_ * bestPrices_[p] + (1 - smoothing_) * now[p];
    Pricing pricing = priceBoards(pricers_, demand_, asked, effort, shouldEnd_);
    noteBound(pricing, asked);
    const int taken = takeOffers(pricing, now);
    // Offers from elsewhere may be above what is a bound for these boards' own.
    if (std::abs(bound_ - masterValue_) <= closeEnough) return true;
    if (taken == 0 && smoothing_ == 0) return true;
    smoothing_ = taken == 0 ? 0 : kSmoothing;
  }
  return false;
}

void PriceSearch::noteBound(const Pricing& pricing, const std::vector<double>& prices) {
  if (!pricing.whole || pricing.ceiling >= bound_) return;
  bound_ = pricing.ceiling;
  bestPrices_ = prices;
  bestLearnt_.clear(), bestCeilings_.clear();
  for (size_t b = 0; b < pricers_.size(); ++b) {
    bestLearnt_.push_back(pricers_[b]->learnt());
    bestCeilings_.push_back(pricing.layouts[b].ceiling);
  }
}

void PriceSearch::tighten(const PricerEffort& effort) {
  if (!bounded()) return;
  for (size_t b = 0; b < pricers_.size(); ++b) pricers_[b]->learn(bestLearnt_[b]);
  const std::vector<double> prices = bestPrices_;
  Pricing pricing = priceBoards(pricers_, demand_, prices, effort, shouldEnd_);
  noteBound(pricing, prices);
  if (master_.solve()) takeOffers(pricing, master_.prices());
  smoothing_ = kSmoothing;
}

void PriceSearch::scatter(const std::vector<double>& most, const PricerEffort& effort,
                          const std::function<double()>& chance) {
  std::vector<Prices> prices(pricers_.size(), Prices{bestPrices_});
  for (Prices& ofBoard : prices)
    for (size_t p = 0; p < most.size(); ++p)
      ofBoard.ofPart[p] = std::max(0.0, ofBoard.ofPart[p] + most[p] * (2 * chance() - 1));
  std::vector<PricedLayouts> made(pricers_.size());
  std::array<PathSpace, 2> spaces;
  eachInParallel(static_cast<int>(pricers_.size()), [&](int b, int thread) {
    if (!shouldEnd_())
      made[b] = pricers_[b]->solve(prices[b], demand_.left, effort, spaces[thread], shouldEnd_);
  });
  for (size_t b = 0; b < made.size(); ++b)
    offer({static_cast<int>(b), std::move(made[b].parts), made[b].worth, std::move(made[b].layout),
           false});
}

std::vector<double> PriceSearch::fractions() {
  std::vector<double> all(offers_.size(), 0);
  if (master_.solve())
    for (size_t o = 0; o < all.size(); ++o) all[o] = master_.fraction(static_cast<int>(o));
  return all;
}

std::vector<double> PriceSearch::masterPrices() {
  return master_.solve() ? master_.prices() : bestPrices_;
}

std::vector<double> PriceSearch::wholePanels() {
  return master_.solve() ? master_.wholePanels() : std::vector<double>{};
}

std::vector<double> PriceSearch::copies() {
  std::vector<double> all(demand_.left.size(), 0);
  if (master_.solve())
    for (size_t p = 0; p < all.size(); ++p) all[p] = master_.copies(static_cast<int>(p));
  return all;
}

std::vector<Offer> PriceSearch::chooseNear(const std::vector<Offer>& plan,
                                           const std::vector<int>& boards, double atLeast) {
  std::vector<int> kept(pricers_.size(), Master::kFree);
  std::vector<double> shares(pricers_.size(), 0);  // of boards: how much of them is laid out
  if (boards.empty()) {
    const std::vector<double> share = fractions();
    for (size_t o = 0; o < share.size(); ++o) shares[offers_[o].board] += share[o];
    for (const Offer& o : plan) {
      const auto known = known_.find({o.board, o.parts, o.pay});
      const bool agreed = o.parts.empty()
                              ? shares[o.board] < kLittle
                              : known != known_.end() && share[known->second] > 1 - kLittle;
      if (agreed) kept[o.board] = o.parts.empty() ? Master::kNone : known->second;
    }
  } else {
    for (const Offer& o : plan) {
      const auto known = known_.find({o.board, o.parts, o.pay});
      if (std::binary_search(boards.begin(), boards.end(), o.board)) continue;
      if (o.parts.empty())
        kept[o.board] = Master::kNone;
      else if (known != known_.end())
        kept[o.board] = known->second;
    }
  }
  return planOf(master_.wholeChoiceNear(kept, atLeast, shouldEnd_), offers_, pricers_.size());
}

std::vector<Offer> PriceSearch::chooseSoon(double atLeast) {
  const std::vector<int> free(pricers_.size(), Master::kFree);
  return planOf(master_.wholeChoiceNear(free, atLeast, shouldEnd_), offers_, pricers_.size());
}

std::vector<Offer> PriceSearch::choose(double atLeast) {
  return planOf(master_.wholeChoice(atLeast, shouldEnd_), offers_, pricers_.size());
}

}  // namespace rackside
