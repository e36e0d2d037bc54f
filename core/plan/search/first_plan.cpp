// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/first_plan.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <random>

#include "core/base/each_in_parallel.h"
#include "core/plan/search/board_pricer.h"
#include "core/plan/search/price_search.h"

namespace rackside {
namespace {

// Measured on random racks of 30 boards: 0.6 for both is within a percent of the best found.
constexpr double kHardPower = 0.6;
// Shorter boards first (the long ones keep room for what fits nowhere else) add three percent; the
// third turn adds one for a sixth of the time. Few boards have time for more splits: 2000 of each
// of ten add five percent to what 400 find.
constexpr int kSplitsInAll = 20000, kLeastSplits = 600, kMostSplits = 2000;
constexpr int kTurns = 3;
// Of a few boards from the sections that are known of them: adds half a percent to 30 boards and
// five to ten, for a thirtieth of the time.
constexpr int kPutTogether = 20;
constexpr size_t kLeastTogether = 2, kMoreTogether = 5;
// Boards laid out side by side, so that the threads seldom wait; all but the first are filled again
// with what those before them left.
constexpr size_t kTogether = 4;

class Turns {
 public:
  Turns(const RackProblem& problem, std::vector<Offer> start)
      : problem_(problem),
        placed_(problem.demand.left.size(), 0),
        plan_(std::move(start)),
        pricers_(problem.maps.size()) {
    for (const Offer& o : plan_) {
      for (const int part : o.parts) ++placed_[part];
      if (!o.asItIs) toLayOut_.push_back(o.board);
    }
    std::stable_sort(toLayOut_.begin(), toLayOut_.end(),
                     [&](int a, int b) { return columns(a) < columns(b); });
  }

  void turn(const Prices& prices) {
    for (size_t b = 0; b < toLayOut_.size(); b += kTogether) {
      const int count = static_cast<int>(std::min(kTogether, toLayOut_.size() - b));
      std::array<PricedLayout, kTogether> made;
      eachInParallel(count, [&](int i, int) {
        made[i] = layOut(toLayOut_[b + i], prices, leftFor(plan_[toLayOut_[b + i]]));
      });
      for (int i = 0; i < count; ++i) {
        Offer& offer = plan_[toLayOut_[b + i]];
        if (i > 0) made[i] = pricers_[offer.board]->fillAgain(prices, leftFor(offer));
        takeIfBetter(offer, prices, std::move(made[i]), 0);
      }
    }
  }

  // Boards with strips that no whole panel takes are laid out again without those.
  void withoutSurplus(const Prices& prices) {
    for (const int board : toLayOut_) {
      Offer& offer = plan_[board];
      double wasted = 0;
      std::vector<int> left = leftFor(offer);
      for (const WantedPanel& panel : problem_.demand.panels)
        for (const PanelWay& way : panel.ways) {
          const auto here = std::count(offer.parts.begin(), offer.parts.end(), way.part);
          const int surplus = std::min<int>(strips(way) % way.strips, static_cast<int>(here));
          if (surplus == 0) continue;
          left[way.part] = static_cast<int>(here) - surplus;
          wasted += surplus * baseValue(problem_.job.parts[way.part]);
        }
      if (wasted > 0) takeIfBetter(offer, prices, layOut(board, prices, left), wasted);
    }
  }

  // Some boards at a time are put together anew, from sections that are known, where that is
  // better.
  void putTogether() {
    std::mt19937_64 random;
    for (int i = 0; i < kPutTogether && !toLayOut_.empty(); ++i) {
      std::vector<int> boards = toLayOut_;
      const size_t count = std::min(boards.size(), kLeastTogether + random() % kMoreTogether);
      for (size_t k = 0; k < count; ++k)
        std::swap(boards[k], boards[k + random() % (boards.size() - k)]);
      boards.resize(count);
      putTogether(boards);
    }
  }
  std::vector<Offer> plan() { return std::move(plan_); }

 private:
  int columns(int board) const { return problem_.maps[board]->grid().count; }
  int strips(const PanelWay& way) const {
    return placed_[way.part] + problem_.demand.heldOf(way.part);
  }

  // Copies that the board may use; panels are begun in one piece or in few strips.
  std::vector<int> leftFor(const Offer& offer) const {
    Demand demand = problem_.demand;
    for (const Offer& o : plan_)
      if (&o != &offer) demand.take(o.parts);
    for (const WantedPanel& panel : demand.panels) {
      const auto few = std::find_if(panel.ways.begin(), panel.ways.end(),
                                    [](const PanelWay& way) { return way.strips > 1; });
      for (const PanelWay& way : panel.ways) {
        if (few == panel.ways.end() || way.strips <= few->strips) continue;
        const int beyond = demand.heldOf(way.part) % way.strips;
        demand.left[way.part] = beyond > 0 ? way.strips - beyond : 0;
      }
    }
    return demand.left;
  }

  PricedLayout layOut(int board, const Prices& prices, const std::vector<int>& left) {
    static thread_local PathSpace space;
    auto& pricer = pricers_[board];
    if (!pricer)
      pricer =
          std::make_unique<BoardPricer>(*problem_.maps[board], problem_, Reading::forPlans, true);
    PricerEffort effort;
    effort.mostSplits =
        std::clamp(kSplitsInAll / static_cast<int>(toLayOut_.size()), kLeastSplits, kMostSplits);
    effort.mostPenaltySteps = 0;
    return pricer->solve(prices, left, effort, space, [] { return false; });
  }

  void putTogether(const std::vector<int>& boards) {
    Demand demand = problem_.demand;
    for (const Offer& o : plan_)
      if (std::find(boards.begin(), boards.end(), o.board) == boards.end()) demand.take(o.parts);
    double atLeast = -problem_.demand.waste(placed_);
    Pricers some;
    some.reserve(boards.size());
    for (const int b : boards) some.push_back(pricers_[b].get()), atLeast += plan_[b].pay;
    PriceSearch search(some, demand, [] { return false; });
    for (size_t i = 0; i < boards.size(); ++i) {
      Offer asBefore = plan_[boards[i]];
      asBefore.board = static_cast<int>(i);
      search.offer(std::move(asBefore));
    }
    search.recombine();
    std::vector<Offer> found = search.chooseSoon(atLeast + 1e-6);
    for (Offer& offer : found) {
      Offer& was = plan_[boards[offer.board]];
      offer.board = was.board;
      replace(was, std::move(offer));
    }
  }

  void replace(Offer& was, Offer offer) {
    for (const int part : was.parts) --placed_[part];
    for (const int part : offer.parts) ++placed_[part];
    was = std::move(offer);
  }

  // Of the offer's pay `wasted` is none.
  void takeIfBetter(Offer& offer, const Prices& prices, PricedLayout made, double wasted) {
    double was = offer.pay - wasted;
    for (const int part : offer.parts) was -= prices.ofPart[part];
    if (made.pay <= was) return;
    replace(offer, {offer.board, std::move(made.parts), made.worth, std::move(made.layout), false});
  }

  const RackProblem& problem_;
  std::vector<int> placed_;  // copies by part
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
  turns.withoutSurplus(plain);
  turns.putTogether();
  return turns.plan();
}

}  // namespace rackside
