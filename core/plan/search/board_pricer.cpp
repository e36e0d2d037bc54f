// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/board_pricer.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "core/plan/search/copy_penalties.h"
#include "core/plan/stock.h"

namespace rackside {
namespace {

// A step of the penalties that did not lower the ceiling is taken back and made shorter.
constexpr double kShorter = 0.5;
// So many steps along the excess; then between the best penalties and those of the ways so far.
constexpr int kStepsAlong = 2;
constexpr double kOfBest = 0.4;
// Share of a section's worth that it may stay below its ceiling.
constexpr double kNearCeiling = 0.002;
// Looked at to either side of a section that the bound goes through, and at angles so far off.
constexpr std::array kSpareColumns{2, 8};
constexpr std::array kTurnsDeg{0.0, -0.04, 0.04, -0.08, 0.08, -0.16, 0.16, -0.3, 0.3};

// The direction whose middle is nearest to an angle, of those that are halved no more.
int nearestTo(double angleRad, const RipDirections& rips) {
  int best = 0;
  for (size_t d = 0; d < rips.all.size(); ++d)
    if (rips.all[d].halves < 0 &&
        std::abs(rips.all[d].angleRad - angleRad) < std::abs(rips.all[best].angleRad - angleRad))
      best = static_cast<int>(d);
  return best;
}

}  // namespace

BoardPricer::BoardPricer(const BoardMap& map, const RackProblem& problem, Reading reading,
                         bool blindSearch)
    : items_(map, problem.job, problem.worth, reading),
      places_(items_, problem.lookWeight),
      filler_(items_, places_, problem.job.shop.ripKerfMm),
      shelf_(problem.job) {
  if (blindSearch) blind_ = std::make_unique<StripPlaces>(items_, problem.lookWeight, true);
  stopPay_.assign(static_cast<size_t>(map.grid().count) + 1, 0);
  const auto charge = problem.charges.find(map.board().id);
  if (charge == problem.charges.end()) return;
  const Polygon outline = map.board().outline.polygon();
  const double pinned = map.pinnedUpTo(), whole = area({outline});
  for (int c = 0; c <= map.grid().count; ++c) {
    const double x = std::max(pinned, c > 0 ? map.columnX(c) : -1e9);
    if (x > -1e9)
      stopPay_[c] = static_cast<float>(
          charge->second.value(whole, stockUpToMm2(outline, x, problem.job.shop)));
  }
}

std::vector<ItemPay> BoardPricer::paysAt(const StripPlaces& places, const Prices& prices,
                                         const std::vector<int>& left) const {
  std::vector<ItemPay> pays;
  for (size_t i = 0; i < items_.items().size(); ++i) {
    const StripItem& item = items_.items()[i];
    ItemPay pay{item.plainValue, item.copies * prices.ofPart[item.part], 0};
    if (item.copies <= left[item.part])
      pay.most = pay.plainValue * places.greatestGain(static_cast<int>(i)) - pay.cost;
    pays.push_back(pay);
  }
  return pays;
}

void BoardPricer::narrow(const PricerEffort& effort, double& ceiling,
                         std::vector<PathSection>& path, const std::function<bool()>& shouldEnd) {
  int splits = 0;
  while (splits < effort.mostSplits && !shouldEnd()) {
    bool any = false;
    for (const PathSection& s : path)
      if (tree_->refine(s.node)) any = true, ++splits;
    if (!any) return;
    ceiling = std::min(ceiling, tree_->path(stopPay_, path));
  }
}

double BoardPricer::payOf(const FilledSection& filled, const Prices& raised) {
  double sum = filled.worth;
  for (const int part : filled.parts) sum -= raised.ofPart[part];
  return sum;
}

// Where some starts leave pay that the section's ceiling promises, every start is looked at.
FilledSection BoardPricer::fill(const PathSection& s, const StackOrder& order, const Prices& raised,
                                const std::vector<int>& free) {
  const ItemsAlong& along = tree_->along(s.along);
  const auto filledFrom = [&](int mostStarts) {
    return filler_.fill(along, s.from, along.lengths[s.length], s.length, order, free, {},
                        mostStarts);
  };
  FilledSection filled = filledFrom(StripPlaces::kSomeStarts);
  if (blind_ || s.ceiling - payOf(filled, raised) <= kNearCeiling * filled.worth) return filled;
  FilledSection more = filledFrom(StripPlaces::kEveryStart);
  return payOf(more, raised) > payOf(filled, raised) ? std::move(more) : std::move(filled);
}

// Of a search that is blind, with looks.
const StackOrder& BoardPricer::orderAlong(int along, const Prices& prices,
                                          const std::vector<int>& left) {
  if (!blind_) return tree_->order(along);
  StackOrder& order = seen_[along];
  if (order.heights == 0)
    order = orderFor(places_, tree_->along(along), paysAt(places_, prices, left),
                     items_.job().shop.ripKerfMm);
  return order;
}

void BoardPricer::add(FilledSection filled, const Prices& prices, std::vector<int>& free,
                      PricedLayout& out) {
  if (filled.layout.strips.empty()) return;
  shelf_.add(filled.layout);
  for (const int part : filled.parts) --free[part], out.pay -= prices.ofPart[part];
  out.parts.insert(out.parts.end(), filled.parts.begin(), filled.parts.end());
  out.layout.value += filled.worth;
  out.layout.sections.push_back(std::move(filled.layout));
}

void BoardPricer::total(PricedLayout& out) const {
  if (!out.layout.sections.empty()) out.layout.value += stopPay_[out.layout.sections.back().to];
  out.worth = out.layout.value;
  out.pay += out.worth;
  std::sort(out.parts.begin(), out.parts.end());
}

PricedLayout BoardPricer::realise(const std::vector<PathSection>& path, const Prices& prices,
                                  const Prices& raised, const std::vector<int>& left) {
  PricedLayout out;
  std::vector<int> free = left;
  seen_.assign(items_.directions(), {});
  for (const PathSection& s : path)
    add(fill(s, orderAlong(s.along, prices, left), raised, free), prices, free, out);
  total(out);
  return out;
}

// To where its blanks lie.
void BoardPricer::trimEnds(SectionLayout& section) const {
  const Job& job = items_.job();
  int from = section.to, to = section.from;
  for (const StripLayout& strip : section.strips) {
    const BlankKind& kind = job.kinds[strip.kind];
    const Footprint f = footprintOf(kind, grainToleranceRad(job.parts[kind.part]),
                                    map().angleRad(section.direction), job.cellMm,
                                    job.shop.crosscutKerfMm, Reading::forPlans);
    from = std::min(from, strip.column);
    to = std::max(to, strip.column + f.steps);
  }
  section.from = from, section.to = to;
}

FilledSection BoardPricer::fillAlong(int direction, int from, int to, const Prices& prices,
                                     const std::vector<int>& left) {
  const ItemsAlong& along = items_.along(direction);
  const auto longest = std::upper_bound(along.lengths.begin(), along.lengths.end(), to - from);
  if (longest == along.lengths.begin()) return {};
  const StackOrder order =
      orderFor(places_, along, paysAt(places_, prices, left), items_.job().shop.ripKerfMm);
  FilledSection filled =
      filler_.fill(along, from, to - from, static_cast<int>(longest - along.lengths.begin()) - 1,
                   order, left, {}, StripPlaces::kEveryStart);
  if (filled.layout.strips.empty()) return {};
  trimEnds(filled.layout);
  const SectionLayout& at = filled.layout;
  if (!map().freeOfPins(at.from, at.to, Reading::forPlans) || !map().mayBegin(at.from) ||
      !map().mayBegin(at.to))
    return {};
  return filled;
}

// Read for bounds a place is a little larger than it is: what just fits there may fit beside it, or
// at an angle a little less or more. All that is found goes to the shelf.
void BoardPricer::shelveNear(const WaySection& s, int spare, const Prices& prices,
                             const std::vector<int>& left) {
  const RipDirections& rips = map().rips();
  const int from = std::max(0, s.from - spare);
  const int to = std::min(map().grid().count, s.from + s.steps + spare);
  std::vector<int> tried;
  for (const double turnedDeg : kTurnsDeg) {
    const double angle = rips.all[s.direction].angleRad + turnedDeg * std::numbers::pi / 180;
    const int direction = turnedDeg == 0 ? s.direction : nearestTo(angle, rips);
    if (std::find(tried.begin(), tried.end(), direction) != tried.end()) continue;
    tried.push_back(direction);
    const FilledSection filled = fillAlong(direction, from, to, prices, left);
    if (filled.layout.strips.empty()) continue;
    shelf_.add(filled.layout);
    if (payOf(filled, prices) >= s.ceiling - kNearCeiling * std::abs(s.ceiling)) return;
  }
}

PricedLayout BoardPricer::follow(const std::vector<WaySection>& way, const Prices& prices,
                                 const std::vector<int>& left) {
  for (const WaySection& s : way)
    for (const int spare : kSpareColumns) shelveNear(s, spare, prices, left);
  return recombine(prices, left);
}

PricedLayout BoardPricer::fillAgain(const Prices& prices, const std::vector<int>& left) {
  return realise(lastPath_, prices, prices, left);
}

PricedLayout BoardPricer::recombine(const Prices& prices, const std::vector<int>& left) const {
  PricedLayout out;
  out.layout = shelf_.best(prices, left, stopPay_);
  out.worth = out.pay = out.layout.value;
  for (const SectionLayout& section : out.layout.sections)
    for (const StripLayout& strip : section.strips) {
      const BlankKind& kind = items_.job().kinds[strip.kind];
      out.parts.insert(out.parts.end(), kind.copies, kind.part);
      out.pay -= kind.copies * prices.ofPart[kind.part];
    }
  std::sort(out.parts.begin(), out.parts.end());
  return out;
}

PricedLayouts BoardPricer::solve(const Prices& prices, const std::vector<int>& left,
                                 const PricerEffort& effort, PathSpace& space,
                                 const std::function<bool()>& shouldEnd) {
  PricedLayouts best;
  if (items_.empty()) return best;
  StripPlaces& searched = blind_ ? *blind_ : places_;
  if (!tree_) tree_ = std::make_unique<SectionTree>(items_, searched, items_.job().shop.ripKerfMm);
  if (learnt_.penalty.empty()) learnt_.penalty.assign(left.size(), 0);
  double ceiling = 1e300, stride = 1;
  std::vector<double> kept = learnt_.penalty;
  std::vector<int> excess;  // of copies, at the kept penalties
  CopyPenalties ways(left);
  for (int step = 0; step <= effort.mostPenaltySteps; ++step) {
    Prices raised = prices;
    double refund = 0;
    for (size_t p = 0; p < left.size(); ++p) {
      raised.ofPart[p] += learnt_.penalty[p];
      refund += learnt_.penalty[p] * left[p];
    }
    tree_->setPays(paysAt(searched, raised, left), space);
    std::vector<PathSection> path;
    double here = tree_->path(stopPay_, path);
    narrow(effort, here, path, shouldEnd);
    std::vector<int> used(left.size(), 0);
    for (const PathSection& s : path) tree_->countParts(s.node, used);
    double plain = here;
    for (size_t p = 0; p < left.size(); ++p) plain += learnt_.penalty[p] * used[p];
    here += refund;
    if (here < ceiling) {
      ceiling = here;
      way_.clear();
      for (const PathSection& s : path)
        way_.push_back({s.along, s.from, tree_->along(s.along).lengths[s.length], s.ceiling});
      kept = learnt_.penalty;
      excess = used;
      for (size_t p = 0; p < left.size(); ++p) excess[p] -= left[p];
    } else {
      stride *= kShorter;
      learnt_.penalty = kept;
    }
    if (effort.wantLayout) {
      PricedLayout made = realise(path, prices, raised, left);
      if (made.pay > best.pay) std::swap(static_cast<PricedLayout&>(best), made);
      if (made.pay > 0) best.others.push_back(std::move(made));
      lastPath_ = path;
    }
    const double target = effort.wantLayout ? best.pay : learnt_.target;
    if (ceiling - target <= effort.leaveOpen || shouldEnd()) break;
    ways.add(plain, std::move(used));
    if (step < kStepsAlong) {
      if (!penalise(excess, stride * (ceiling - target))) break;
    } else if (const std::vector<double> next = ways.best(); !next.empty()) {
      for (size_t p = 0; p < left.size(); ++p)
        learnt_.penalty[p] = kOfBest * kept[p] + (1 - kOfBest) * next[p];
    }
  }
  learnt_.penalty = kept;
  if (effort.wantLayout) learnt_.target = best.pay;
  best.ceiling = std::max(ceiling, best.pay);
  return best;
}

bool BoardPricer::penalise(const std::vector<int>& excess, double open) {
  double square = 0;
  for (size_t p = 0; p < excess.size(); ++p)
    if (excess[p] > 0 || learnt_.penalty[p] > 0) square += excess[p] * excess[p];
  if (square == 0) return false;
  const double step = open / square;
  for (size_t p = 0; p < excess.size(); ++p)
    if (excess[p] > 0 || learnt_.penalty[p] > 0)
      learnt_.penalty[p] = std::max(0.0, learnt_.penalty[p] + step * excess[p]);
  return true;
}

}  // namespace rackside
