// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/first_plan.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "core/plan/search/board_pricer.h"
#include "core/plan/search/each_in_parallel.h"

namespace rackside {
namespace {

// Measured on random racks of 30 boards: 0.6 for both is within a percent of the best found.
constexpr double kHardPower = 0.6;
// Shorter boards first (the long ones keep room for what fits nowhere else) add three percent, so
// many splits two more than 240; a third turn would add half a percent for a sixth of the time.
constexpr int kSplits = 400;
constexpr int kTurns = 2;

class Turns {
 public:
  Turns(const RackProblem& problem, std::vector<Offer> start)
      : problem_(problem),
        left_(problem.wanted),
        plan_(std::move(start)),
        pricers_(problem.maps.size()) {
    for (const Offer& o : plan_) {
      for (const int part : o.parts) --left_[part];
      if (!o.asItIs) toLayOut_.push_back(o.board);
    }
    std::stable_sort(toLayOut_.begin(), toLayOut_.end(),
                     [&](int a, int b) { return columns(a) < columns(b); });
  }

  void turn(const Prices& prices) {
    for (size_t b = 0; b < toLayOut_.size(); b += 2) {
      const int count = static_cast<int>(std::min<size_t>(2, toLayOut_.size() - b));
      std::array<PricedLayout, 2> made;
      eachInParallel(count, [&](int i, int) { made[i] = layOut(toLayOut_[b + i], prices); });
      for (int i = 0; i < count; ++i)
        take(plan_[toLayOut_[b + i]], prices, std::move(made[i]), i > 0);
    }
  }
  std::vector<Offer> plan() { return std::move(plan_); }

 private:
  int columns(int board) const { return problem_.maps[board]->grid().count; }

  std::vector<int> leftFor(const Offer& offer) const {
    std::vector<int> left = left_;
    for (const int part : offer.parts) ++left[part];
    return left;
  }

  PricedLayout layOut(int board, const Prices& prices) {
    static thread_local PathSpace space;
    auto& pricer = pricers_[board];
    if (!pricer)
      pricer =
          std::make_unique<BoardPricer>(*problem_.maps[board], problem_, Reading::forPlans, true);
    PricerEffort effort;
    effort.mostSplits = kSplits;
    effort.mostPenaltySteps = 0;
    return pricer->solve(prices, leftFor(plan_[board]), effort, space, [] { return false; });
  }

  void take(Offer& offer, const Prices& prices, PricedLayout made, bool mayLack) {
    std::vector<int> left = leftFor(offer);
    if (mayLack) made = pricers_[offer.board]->fillAgain(prices, left);
    double was = offer.pay;
    for (const int part : offer.parts) was -= prices.ofPart[part];
    if (made.pay <= was) return;
    for (const int part : made.parts) --left[part];
    left_ = left;
    offer = {offer.board, std::move(made.parts), made.worth, std::move(made.layout), false};
  }

  const RackProblem& problem_;
  std::vector<int> left_;
  std::vector<Offer> plan_;
  std::vector<std::unique_ptr<BoardPricer>> pricers_;
  std::vector<int> toLayOut_;
};

}  // namespace

std::vector<Offer> firstPlan(const RackProblem& problem, std::vector<Offer> start) {
  Prices hard, plain;
  for (const Part& part : problem.job.parts) {
    const double factor =
        std::pow(part.lengthMm / 1000, kHardPower) * std::pow(part.widthMm / 100, kHardPower);
    hard.ofPart.push_back(baseValue(part) * (1 - factor));
    plain.ofPart.push_back(0);
  }
  Turns turns(problem, std::move(start));
  turns.turn(hard);
  for (int t = 1; t < kTurns; ++t) turns.turn(plain);
  return turns.plan();
}

}  // namespace rackside
