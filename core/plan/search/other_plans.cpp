// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/other_plans.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/each_in_parallel.h"

namespace rackside {
namespace {

constexpr int kRounds = 40;

Likeness likenessTo(const std::vector<Offer>& plan, size_t parts, double leastMoved) {
  Likeness likeness{{}, std::vector<int>(parts, 0), leastMoved, 0};
  for (const Offer& o : plan) likeness.missing += std::abs(o.pay);
  likeness.parts.resize(plan.size());
  for (const Offer& o : plan) {
    likeness.parts[o.board] = o.parts;
    for (const int part : o.parts) ++likeness.copies[part];
  }
  return likeness;
}

// What lies elsewhere than in that plan is the cheaper.
void favour(const Likeness& likeness, int board, double price, std::vector<double>& ofPart) {
  const std::vector<int>& there = likeness.parts[board];
  for (size_t p = 0; p < ofPart.size(); ++p)
    if (likeness.copies[p] > 0 &&
        !std::binary_search(there.begin(), there.end(), static_cast<int>(p)))
      ofPart[p] = std::max(0.0, ofPart[p] - price);
}

}  // namespace

OtherPlans::OtherPlans(Pricers pricers, Demand demand, std::vector<Offer> offers,
                       ShouldEnd shouldEnd)
    : pricers_(std::move(pricers)),
      demand_(std::move(demand)),
      offers_(std::move(offers)),
      shouldEnd_(std::move(shouldEnd)) {}

// One more offer of each board, at prices under which parts that earlier plans have on others are
// cheaper.
int OtherPlans::offerMore(Master& master, const std::vector<Likeness>& limits,
                          const PricerEffort& effort) {
  const std::vector<double> now = master.prices();
  std::vector<PricedLayout> made(pricers_.size());
  std::array<PathSpace, 2> spaces;
  eachInParallel(static_cast<int>(pricers_.size()), [&](int b, int thread) {
    Prices prices{now};
    for (size_t k = 0; k < limits.size(); ++k)
      favour(limits[k], b, master.likenessPrice(static_cast<int>(k)), prices.ofPart);
    if (!shouldEnd_())
      made[b] = pricers_[b]->solve(prices, demand_.left, effort, spaces[thread], shouldEnd_);
  });
  int taken = 0;
  for (size_t b = 0; b < made.size(); ++b) {
    const int board = static_cast<int>(b);
    if (made[b].pay <= master.boardPrice(board) + 1e-6 * (1 + made[b].worth)) continue;
    offers_.push_back(
        {board, std::move(made[b].parts), made[b].worth, std::move(made[b].layout), false});
    master.add(offers_.back());
    ++taken;
  }
  return taken;
}

std::vector<Offer> OtherPlans::find(const std::vector<std::vector<Offer>>& before,
                                    double leastMoved, double atLeast, const PricerEffort& effort) {
  std::vector<Likeness> limits;
  limits.reserve(before.size());
  for (const auto& plan : before)
    limits.push_back(likenessTo(plan, demand_.left.size(), leastMoved));
  Master master(static_cast<int>(pricers_.size()), demand_, limits);
  for (const Offer& o : offers_) master.add(o);
  for (int round = 0; round < kRounds && !shouldEnd_() && master.solve(); ++round)
    if (offerMore(master, limits, effort) == 0) break;
  if (!master.solve() || master.value() <= atLeast) return {};
  const std::vector<Offer> promising = promisingOffers(master, atLeast);
  Master few(static_cast<int>(pricers_.size()), demand_, limits);
  for (const Offer& o : promising) few.add(o);
  return planOf(few.wholeChoice(atLeast, shouldEnd_), promising, pricers_.size());
}

// An offer whose reduced cost is more than the linear program has to spare is in no plan that pays
// more than `atLeast`.
std::vector<Offer> OtherPlans::promisingOffers(const Master& master, double atLeast) const {
  std::vector<Offer> promising;
  for (size_t o = 0; o < offers_.size(); ++o)
    if (master.value() - master.reducedCost(static_cast<int>(o)) > atLeast)
      promising.push_back(offers_[o]);
  return promising;
}

}  // namespace rackside
