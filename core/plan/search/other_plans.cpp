// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/other_plans.h"

#include <algorithm>
#include <array>

#include "core/base/each_in_parallel.h"

namespace rackside {
namespace {

constexpr int kRounds = 8;

Likeness likenessTo(const std::vector<Offer>& plan, double mostKept) {
  Likeness likeness{{}, mostKept};
  likeness.parts.resize(plan.size());
  for (const Offer& o : plan) likeness.parts[o.board] = o.parts;
  return likeness;
}

}  // namespace

OtherPlans::OtherPlans(Pricers pricers, Demand demand, std::vector<Offer> offers,
                       ShouldEnd shouldEnd)
    : pricers_(std::move(pricers)),
      demand_(std::move(demand)),
      offers_(std::move(offers)),
      shouldEnd_(std::move(shouldEnd)) {}

// One more offer of each board, at prices under which its parts of earlier plans are dearer.
int OtherPlans::offerMore(Master& master, const std::vector<Likeness>& limits,
                          const PricerEffort& effort) {
  const std::vector<double> now = master.prices();
  std::vector<PricedLayout> made(pricers_.size());
  std::array<PathSpace, 2> spaces;
  eachInParallel(static_cast<int>(pricers_.size()), [&](int b, int thread) {
    Prices prices{now};
    for (size_t k = 0; k < limits.size(); ++k) {
      std::vector<int> parts = limits[k].parts[b];
      parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
      for (const int part : parts) prices.ofPart[part] += master.likenessPrice(static_cast<int>(k));
    }
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

std::vector<Offer> OtherPlans::find(const std::vector<std::vector<Offer>>& before, double mostKept,
                                    double atLeast, const PricerEffort& effort) {
  std::vector<Likeness> limits;
  limits.reserve(before.size());
  for (const auto& plan : before) limits.push_back(likenessTo(plan, mostKept));
  Master master(static_cast<int>(pricers_.size()), demand_, limits);
  for (const Offer& o : offers_) master.add(o);
  for (int round = 0; round < kRounds && !shouldEnd_() && master.solve(); ++round)
    if (offerMore(master, limits, effort) == 0) break;
  return planOf(master.wholeChoice(atLeast, shouldEnd_), offers_, pricers_.size());
}

}  // namespace rackside
