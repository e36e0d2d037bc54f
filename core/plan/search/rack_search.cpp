// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/rack_search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

#include "core/base/each_in_parallel.h"
#include "core/plan/search/other_plans.h"
#include "core/plan/search/small_board.h"

namespace rackside {
namespace {

constexpr int kRoundsAStep = 4;
constexpr double kClosed = 1e-4;
constexpr double kLittle = 0.01;  // of the worth, that a step of prices brings
constexpr double kExact = 1e-9;
constexpr double kWorthBounding = 0.4;
constexpr int kRoundsADive = 3, kRoundsWithPanels = 2;
constexpr double kNearlyWhole = 0.95;
constexpr double kAsDecided = 0.7;  // of neighbourhoods that leave the numbers of panels alone
constexpr double kDiceShare = 0.3;  // of how sure an offer is, left to chance
// Of the bound, that is worth more of the same effort; splits of a board at given prices for it.
constexpr double kTrueEnough = 1e-3;
constexpr int kFirstTrueSplits = 1000, kMostTrueSplits = 64000;
constexpr int kTighteningSteps = 30;  // of penalties, when the bound is all that counts
constexpr int kRoundsANeighbourhood = 6;
// Tries from known sections since the last that brought something, of 2 boards or up to so many
// more: a fiftieth of the time of one that looks for new sections.
constexpr int kQuickly = 20, kMostQuickly = 6;
// A polish ends after so many whole choices, of some boards each, that brought nothing.
constexpr int kPolishing = 60;
constexpr size_t kLeastPolished = 24, kMorePolished = 9;
constexpr double kScatter = 1;  // of a price; a round takes a quarter of it or more
constexpr int kScatterRounds = 6;
constexpr int kScatterEvery = 2;
constexpr int kMostStale = 200, kStaleABoard = 10;
constexpr int kFewStale = 10;              // once every set was offered
constexpr int kNeighbourhoodsARound = 12;  // then prices again, with what they offered

Pricers makePricers(const RackProblem& problem, Reading reading,
                    std::vector<std::unique_ptr<BoardPricer>>& owned) {
  owned.resize(problem.maps.size());
  eachInParallel(static_cast<int>(owned.size()), [&](int b, int) {
    owned[b] = std::make_unique<BoardPricer>(*problem.maps[b], problem, reading);
  });
  Pricers pricers;
  for (const auto& p : owned) pricers.push_back(p.get());
  return pricers;
}

}  // namespace

RackSearch::RackSearch(const RackProblem& problem, unsigned long long seed, ShouldEnd shouldEnd)
    : problem_(problem),
      shouldEnd_(std::move(shouldEnd)),
      random_(seed),
      trueSplits_(kFirstTrueSplits) {
  pricers_ = makePricers(problem_, Reading::forPlans, owned_);
  search_ = std::make_unique<PriceSearch>(pricers_, problem_.demand, shouldEnd_);
  best_.resize(pricers_.size());
  for (size_t b = 0; b < best_.size(); ++b) best_[b].board = static_cast<int>(b);
}

std::vector<int> RackSearch::copiesIn(const std::vector<Offer>& plan) const {
  std::vector<int> copies(problem_.demand.left.size(), 0);
  for (const Offer& o : plan)
    for (const int part : o.parts) ++copies[part];
  return copies;
}

double RackSearch::payOf(const std::vector<Offer>& plan) const {
  double pay = 0;
  for (const Offer& o : plan) pay += o.pay;
  return pay - problem_.demand.waste(copiesIn(plan));
}

bool RackSearch::takeIfBetter(std::vector<Offer> plan) {
  if (plan.empty() || payOf(plan) <= bestPay() + 1e-6) return false;
  best_ = std::move(plan);
  return true;
}

void RackSearch::startFrom(std::vector<Offer> plan, std::vector<Offer> pool) {
  for (const Offer& o : plan) search_->offer(o);
  for (Offer& o : pool) search_->offer(std::move(o));
  takeIfBetter(std::move(plan));
}

std::vector<Offer> RackSearch::offers() const {
  std::vector<Offer> all = search_->offers();
  if (decided_) all.insert(all.end(), decided_->offers().begin(), decided_->offers().end());
  return all;
}

bool RackSearch::offerEverySet() {
  if (everySetOffered_ || problem_.chargesStock() || !isSmall(problem_)) return false;
  everySetOffered_ = true;
  std::vector<std::vector<Offer>> ofBoard(pricers_.size());
  eachInParallel(static_cast<int>(pricers_.size()), [&](int b, int) {
    ofBoard[b] = SmallBoard(*problem_.maps[b], problem_).offers(b, shouldEnd_);
  });
  for (auto& offers : ofBoard)
    for (Offer& o : offers) search_->offer(std::move(o));
  takeIfBetter(search_->choose(bestPay()));
  return true;
}

bool RackSearch::closed() const {
  return bound_ <= bestPay() + closeEnough();
}

double RackSearch::atStake() const {
  if (!leastStock()) return std::abs(bestPay());
  const std::vector<int> copies = copiesIn(best_);
  return problem_.demand.inCopies(copies) * problem_.payOfCopy - problem_.demand.waste(copies) -
         bestPay();
}

double RackSearch::closeEnough() const {
  return kClosed * atStake();
}

// Little at first, when prices still move; more once they have settled.
PricerEffort RackSearch::effort(int level) const {
  static constexpr std::array<std::pair<int, int>, kLevels> kEfforts{
      {{60, 1}, {150, 4}, {600, 10}}};
  PricerEffort effort;
  effort.mostSplits = kEfforts[std::min(level, kLevels - 1)].first;
  effort.mostPenaltySteps = kEfforts[std::min(level, kLevels - 1)].second;
  effort.leaveOpen = 5 * closeEnough() / static_cast<double>(pricers_.size());
  return effort;
}

PricerEffort RackSearch::quickEffort() const {
  PricerEffort quick = effort(0);
  quick.mostPenaltySteps = 0;
  return quick;
}

bool RackSearch::step() {
  if (pricers_.empty()) return false;
  if (closed()) return bound_ > bestPay() * (1 + kExact) && offerEverySet();
  if (between_ > 0) {
    --between_;
    neighbourhood();
    return true;
  }
  if (toTighten_) {
    toTighten_ = false;
    if (!problem_.demand.panels.empty()) between_ = kNeighbourhoodsARound;
    takeTogether(dive(allBoards(), primal().demand(), primal().offers()));
    // Copies may be in shares until the tree has parted them.
    if (!leastStock() || tree_) scatter();
    tighten();
    return true;
  }
  if (level_ > 0 && countsWhole() && stepInTree()) return true;
  if (level_ < kLevels) {
    const double before = search_->masterValue();
    bool settled = search_->improve(kRoundsAStep, effort(level_), closeEnough());
    // Whole panels are far from shares of panels: they are not to wait for the last of these.
    if (!problem_.demand.panels.empty())
      settled = settled || search_->masterValue() - before < kLittle * atStake();
    if (!problem_.demand.panels.empty()) {
      if (!decided_ || (settled && !(tree_ && leastStock()))) decide();
    }
    takeIfBetter(primal().choose(bestPay()));
    quickly();
    if (settled) {
      ++level_;
      toTighten_ = true;
    } else {
      boundTruly(effort(level_));
    }
    return true;
  }
  if (offerEverySet()) return true;
  const int mostStale = std::min(kMostStale, kStaleABoard * static_cast<int>(pricers_.size()));
  if (stale_ >= (everySetOffered_ ? kFewStale : mostStale) ||
      gridBound() <= bestPay() + closeEnough())
    return boundMore();
  if (stale_ % kScatterEvery == 0) scatter();
  neighbourhood();
  if (stale_ % kNeighbourhoodsARound != kNeighbourhoodsARound - 1) return true;
  level_ = kLevels - 1;
  (void)boundMore();
  return true;
}

// Layouts a little off the best prices, for whole choices to complete each other with.
void RackSearch::scatter() {
  std::vector<double> most = primal().prices();
  const double copies = 1 + problem_.demand.inCopies(copiesIn(best_));
  for (double& m : most) m = kScatter * (leastStock() ? atStake() / copies : m);
  for (int round = 0; round < kScatterRounds && !shouldEnd_(); ++round) {
    std::vector<double> here = most;
    const double share = std::pow(4, -chance());
    for (double& m : here) m *= share;
    primal().scatter(here, effort(0), [this] { return chance(); });
  }
  if (takeIfBetter(primal().choose(bestPay()))) stale_ = 0;
  polish();
}

void RackSearch::tighten() {
  PricerEffort more = effort(level_);
  more.mostPenaltySteps = kTighteningSteps;
  search_->tighten(more);
  boundTruly(more);
  boundCopies(more);
}

const Pricers& RackSearch::truePricers() {
  if (truePricers_.empty()) truePricers_ = makePricers(problem_, Reading::forBounds, ownedTrue_);
  return truePricers_;
}

double RackSearch::gridBound() const {
  return tree_ ? std::min(search_->bound(), tree_->bound()) : search_->bound();
}

void RackSearch::boundTruly(PricerEffort effort) {
  if (!search_->bounded() || search_->bound() > boundedAt_ - closeEnough()) return;
  // While prices still move far, only when a good part of the gap has gone.
  if (level_ == 0 && boundedAt_ - search_->bound() < kWorthBounding * (boundedAt_ - bestPay()))
    return;
  truePricers();
  boundedAt_ = search_->bound();
  for (size_t b = 0; b < pricers_.size(); ++b)
    truePricers_[b]->learn(search_->learntOf(static_cast<int>(b)));
  effort.mostSplits *= 4;
  boundAt(search_->prices(), effort);
  (void)followBounds(search_->prices());
}

void RackSearch::boundAt(const std::vector<double>& prices, const PricerEffort& effort) {
  PricerEffort bounding = effort;
  bounding.wantLayout = false;
  const Pricing pricing = priceBoards(truePricers(), problem_.demand, prices, bounding, shouldEnd_);
  if (!pricing.whole || pricing.ceiling >= bound_) return;
  bound_ = pricing.ceiling;
  boundPrices_ = prices;
}

// Layouts where the bound sees more than the directions for plans hold; true when there were new
// ones.
bool RackSearch::followBounds(const std::vector<double>& prices) {
  std::vector<PricedLayout> made(pricers_.size());
  eachInParallel(static_cast<int>(pricers_.size()), [&](int b, int) {
    if (!shouldEnd_())
      made[b] = pricers_[b]->follow(truePricers_[b]->way(), {prices}, problem_.demand.left);
  });
  const size_t before = search_->offers().size();
  for (size_t b = 0; b < made.size(); ++b) {
    const Offer offer{static_cast<int>(b), std::move(made[b].parts), made[b].worth,
                      std::move(made[b].layout), false};
    search_->offer(offer);
    if (decided_ && decided_->demand().fits(offer.parts)) decided_->offer(offer);
  }
  if (search_->offers().size() == before) return false;
  takeIfBetter(search_->choose(bestPay()));
  return true;
}

// The bound at prices between those of the best one and the master's, which knows what has been
// found since, or at the master's own; by more effort each time that nothing comes of it. False
// when it is near enough, or more has not helped.
bool RackSearch::boundMore() {
  if (!search_->bounded() || trueSplits_ > kMostTrueSplits || closed()) return false;
  std::vector<double> prices = search_->masterPrices();
  if (!boundPrices_.empty() && !asMaster_)
    for (size_t p = 0; p < prices.size(); ++p) prices[p] = (prices[p] + boundPrices_[p]) / 2;
  PricerEffort more = effort(kLevels);
  more.mostPenaltySteps = kTighteningSteps;
  more.mostSplits = trueSplits_;
  const double before = bound_;
  boundAt(prices, more);
  const bool found = followBounds(prices);
  if (found || before - bound_ >= kTrueEnough * std::abs(bound_)) {
    asMaster_ = false;
    return true;
  }
  // At prices in between an offer may be missed that the master's would find.
  if (asMaster_) trueSplits_ *= 2;
  asMaster_ = !asMaster_;
  return true;
}

// Least stock, when not all that is wanted finds room: shares of copies that do not would count for
// boards of wood. So one more copy is charged nearly what it pays (a multiplier on the number of
// copies: the second of two lexicographic goals), and the bound holds for as many as there are.
void RackSearch::boundCopies(const PricerEffort& effort) {
  if (!leastStock() || !problem_.demand.panels.empty() || !search_->bounded()) return;
  const std::vector<double> prices = search_->prices();
  double most = 0;  // that a copy pays net of its price, of parts that are all placed
  for (const double price : prices)
    if (price > 0) most = std::max(most, problem_.payOfCopy - price);
  const double more = problem_.payOfCopy - most;
  std::vector<double> ofBoards = prices, ofDemand(prices.size(), 0);
  for (size_t p = 0; p < prices.size(); ++p) {
    ofBoards[p] = std::max(prices[p], more);
    ofDemand[p] = ofBoards[p] - more;
  }
  PricerEffort bounding = effort;
  bounding.wantLayout = false;
  const Pricing pricing =
      priceBoards(truePricers(), problem_.demand, ofBoards, bounding, shouldEnd_);
  if (!pricing.whole) return;
  const double copies = problem_.demand.inCopies(copiesIn(best_));
  const double bound = more * copies + problem_.demand.ceiling(ofDemand) + pricing.ceiling -
                       problem_.demand.ceiling(ofBoards);
  copiesBound_ = copiesBounded_ == copies ? std::min(copiesBound_, bound) : bound;
  copiesBounded_ = copies;
}

double RackSearch::boundOfCopies() const {
  const bool holds = copiesBounded_ == problem_.demand.inCopies(copiesIn(best_));
  return holds ? copiesBound_ : 1e300;
}

double RackSearch::chance() {
  return static_cast<double>(random_() >> 11) * 0x1.0p-53;
}

std::vector<int> RackSearch::allBoards() const {
  std::vector<int> boards;
  boards.reserve(best_.size());
  for (const Offer& o : best_) boards.push_back(o.board);
  return boards;
}

// The offers that the master is surest of: nearly whole ones, and an eighth of the boards at least;
// each dive a little otherwise.
std::vector<Offer> RackSearch::surest(PriceSearch& search, const std::vector<int>& boards) {
  const std::vector<double> share = search.fractions();
  std::vector<std::pair<double, size_t>> order;
  for (size_t o = 0; o < share.size(); ++o)
    if (share[o] > 1e-6) order.push_back({share[o] * (1 - kDiceShare * chance()), o});
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  const size_t least = std::max<size_t>(1, boards.size() / 8);
  std::vector<Offer> taken;
  std::vector<char> done(boards.size(), 0);
  for (const auto& [likely, o] : order) {
    if (taken.size() >= least && share[o] < kNearlyWhole) break;
    Offer offer = search.offers()[o];
    if (done[offer.board]) continue;
    done[offer.board] = 1;
    offer.board = boards[offer.board];
    taken.push_back(std::move(offer));
  }
  return taken;
}

// Takes the surest offers for good, asks the other boards for layouts of what is left, and so on:
// what the fractions hint at becomes whole, with offers made for its rest. One offer a board.
std::vector<Offer> RackSearch::dive(std::vector<int> boards, Demand demand,
                                    const std::vector<Offer>& pool) {
  std::vector<Offer> whole;
  whole.reserve(boards.size());
  for (const int b : boards) whole.push_back({b, {}, 0, {}, false});
  const auto at = [&](int board) {
    return std::find_if(whole.begin(), whole.end(),
                        [&](const Offer& o) { return o.board == board; });
  };
  while (!boards.empty() && !shouldEnd_()) {
    Pricers some;
    some.reserve(boards.size());
    std::vector<int> numberOf(pricers_.size(), -1);
    for (size_t i = 0; i < boards.size(); ++i) {
      numberOf[boards[i]] = static_cast<int>(i);
      some.push_back(pricers_[boards[i]]);
    }
    PriceSearch rest(some, demand, shouldEnd_);
    for (Offer o : pool) {
      o.board = numberOf[o.board];
      if (o.board >= 0 && demand.fits(o.parts)) rest.offer(std::move(o));
    }
    if (demand.panels.empty())
      rest.improve(kRoundsADive, effort(0), closeEnough());
    else
      rest.improve(kRoundsWithPanels, quickEffort(), closeEnough());
    const std::vector<Offer> taken = surest(rest, boards);
    const size_t before = boards.size();
    for (const Offer& o : taken) {
      if (!demand.fits(o.parts)) continue;
      demand.take(o.parts);
      std::erase(boards, o.board);
      *at(o.board) = o;
    }
    if (boards.size() == before) break;
  }
  return whole;
}

// The best plan with the layouts of some boards changed; all are offers from now on.
bool RackSearch::takeTogether(const std::vector<Offer>& some) {
  std::vector<Offer> plan = best_;
  for (const Offer& o : some) {
    search_->offer(o);
    if (decided_) decided_->offer(o);
    plan[o.board] = o;
  }
  return takeIfBetter(std::move(plan));
}

// Boards that pay least of what the prices promise are the likelier.
std::vector<int> RackSearch::someBoards(size_t count) {
  const auto& prices = search_->prices();
  std::vector<std::pair<double, int>> order;
  order.reserve(best_.size());
  double all = 0;
  for (const Offer& o : best_) {
    double lost = search_->bounded() ? search_->ceilingOf(o.board) - o.pay : 1;
    for (const int part : o.parts) lost += prices[part];
    order.push_back({std::max(0.0, lost), o.board});
    all += std::max(0.0, lost);
  }
  const double even = 0.5 * all / static_cast<double>(order.size()) + 1e-9;
  for (auto& [lost, board] : order) lost = std::pow(chance(), all / (lost + even));
  std::sort(order.begin(), order.end(), std::greater<>());
  std::vector<int> boards;
  boards.reserve(count);
  for (size_t i = 0; i < std::min(count, order.size()); ++i) boards.push_back(order[i].second);
  std::sort(boards.begin(), boards.end());
  return boards;
}

// Whole choices among what was offered, a few boards at a time: what one long search does not find.
void RackSearch::polish() {
  PriceSearch& search = leastStock() ? primal() : *search_;
  if (decided_ && !leastStock())
    for (const Offer& o : decided_->offers()) search.offer(o);
  takeIfBetter(search.chooseNear(best_, {}, bestPay()));
  for (int since = 0; since < kPolishing && !shouldEnd_(); ++since) {
    const size_t most = best_.size();
    const size_t count = std::min(most, kLeastPolished + random_() % kMorePolished);
    if (takeIfBetter(search.chooseNear(best_, someBoards(count), bestPay()))) since = 0, stale_ = 0;
    if (count == most) break;
  }
}

void RackSearch::neighbourhood() {
  ++stale_;
  if (layOutAnew(someBoards(2 + random_() % 5), true)) stale_ = 0;
  quickly();
}

// From sections that are known, until nothing has come of it for a while.
void RackSearch::quickly() {
  for (int since = 0; since < kQuickly && !shouldEnd_(); ++since)
    if (layOutAnew(someBoards(2 + random_() % (kMostQuickly + 1)), false)) since = 0, stale_ = 0;
}

// Boards laid out anew with what the others leave; `fresh`: from new sections too.
bool RackSearch::layOutAnew(const std::vector<int>& boards, bool fresh) {
  Demand demand = problem_.demand;
  for (const Offer& o : best_)
    if (!std::binary_search(boards.begin(), boards.end(), o.board)) demand.take(o.parts);
  if (!demand.panels.empty() && chance() < kAsDecided) demand.decide(wholePanelsIn(best_));
  Pricers some;
  some.reserve(boards.size());
  double was = -problem_.demand.waste(copiesIn(best_));
  for (const int b : boards) some.push_back(pricers_[b]), was += best_[b].pay;
  PriceSearch search(some, demand, shouldEnd_);
  for (const Offer& o : primal().offers()) {
    const auto at = std::lower_bound(boards.begin(), boards.end(), o.board);
    if (at == boards.end() || *at != o.board || !demand.fits(o.parts)) continue;
    Offer here = o;
    here.board = static_cast<int>(at - boards.begin());
    search.offer(std::move(here));
  }
  if (fresh)
    search.improve(kRoundsANeighbourhood, effort(0), closeEnough());
  else
    search.recombine();
  std::vector<Offer> found = fresh ? search.choose(was + 1e-6) : search.chooseSoon(was + 1e-6);
  for (Offer& o : found) o.board = boards[o.board];
  const bool better = !found.empty() && takeTogether(found);
  if (!fresh || search.bound() <= was + closeEnough()) return better;
  std::vector<Offer> pool = search.offers();
  for (Offer& o : pool) o.board = boards[o.board];
  return takeTogether(dive(boards, demand, pool)) || better;
}

std::vector<Offer> RackSearch::otherThan(const std::vector<std::vector<Offer>>& before,
                                         double leastMoved, double mostLoss) {
  if (pricers_.empty()) return {};
  return OtherPlans(pricers_, problem_.demand, offers(), shouldEnd_)
      .find(before, leastMoved, bestPay() - mostLoss * atStake(), effort(0));
}

size_t RackSearch::bytes() const {
  size_t all = 0;
  for (const auto& p : owned_) all += p->bytes();
  for (const auto& p : ownedTrue_) all += p->bytes();
  return all;
}

}  // namespace rackside
