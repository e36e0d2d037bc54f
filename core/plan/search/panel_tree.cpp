// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/panel_tree.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr int kRoundsAStep = 4, kMostRounds = 24;
constexpr double kWhole = 1e-4;  // of a panel
// Prices are good enough for parting once no more than this share of the gap is their own.
constexpr double kOwnShare = 0.3;

// How far from whole.
double shareOf(double made) {
  return std::abs(made - std::round(made));
}

}  // namespace

PanelTree::PanelTree(Pricers pricers, Pricers truePricers, const PriceSearch& whole,
                     double trueBound, double payOfCopy, ShouldEnd shouldEnd)
    : pricers_(std::move(pricers)),
      truePricers_(std::move(truePricers)),
      payOfCopy_(payOfCopy),
      shouldEnd_(std::move(shouldEnd)) {
  auto all = std::make_unique<Part>();
  all->demand = whole.demand();
  all->bound = whole.bound();
  all->trueBound = trueBound;
  all->start = std::make_shared<const std::vector<Offer>>(whole.offers());
  open_.push_back(std::move(all));
}

double PanelTree::bound() const {
  double most = closedBound_;
  for (const auto& part : open_) most = std::max(most, part->bound);
  return most;
}

double PanelTree::trueBound() const {
  double most = closedTrueBound_;
  for (const auto& part : open_) most = std::max(most, part->trueBound);
  return most;
}

void PanelTree::open(Part& part) const {
  part.search = std::make_unique<PriceSearch>(pricers_, part.demand, shouldEnd_);
  for (const Offer& o : *part.start)
    if (part.demand.fits(o.parts)) part.search->offer(o);
}

void PanelTree::boundTruly(Part& part, PricerEffort effort) const {
  if (!part.search->bounded() || shouldEnd_()) return;
  for (size_t b = 0; b < truePricers_.size(); ++b)
    truePricers_[b]->learn(part.search->learntOf(static_cast<int>(b)));
  effort.wantLayout = false;
  effort.mostSplits *= 4;
  const Pricing pricing =
      priceBoards(truePricers_, part.demand, part.search->prices(), effort, shouldEnd_);
  if (pricing.whole) part.trueBound = std::min(part.trueBound, pricing.ceiling);
}

// True when its prices are as good as they need be.
bool PanelTree::work(Part& part, double bestPay, double closeEnough,
                     const PricerEffort& effort) const {
  if (!part.search) open(part);
  part.rounds += kRoundsAStep;
  const bool settled = part.search->improve(kRoundsAStep, effort, closeEnough);
  part.bound = std::min(part.bound, part.search->bound());
  const double gap = part.bound - bestPay, own = part.bound - part.search->masterValue();
  return settled || gap <= closeEnough || own <= kOwnShare * gap || part.rounds >= kMostRounds;
}

bool PanelTree::step(double bestPay, double closeEnough, const std::vector<PricerEffort>& efforts) {
  if (open_.empty() || trueBound() <= bestPay + closeEnough) return false;
  const auto next = std::max_element(
      open_.begin(), open_.end(), [](const auto& a, const auto& b) { return a->bound < b->bound; });
  Part& part = **next;
  const PricerEffort& effort = efforts[part.level];
  if (!work(part, bestPay, closeEnough, effort) || shouldEnd_()) return true;
  const bool mayHoldMore = part.bound > bestPay + closeEnough;
  boundTruly(part, effort);
  const bool parted = mayHoldMore && (split(part) || (payOfCopy_ > 0 && splitByPart(part)));
  if (mayHoldMore && !parted && part.level + 1 < efforts.size()) {
    part.search->tighten(efforts[++part.level]);
    part.bound = std::min(part.bound, part.search->bound());
    part.rounds = 0;
    return true;
  }
  if (!parted) close(part);
  if (mayHoldMore && !parted) whole_ = std::move(part.search);
  open_.erase(
      std::find_if(open_.begin(), open_.end(), [&](const auto& p) { return p.get() == &part; }));
  return true;
}

void PanelTree::close(const Part& part) {
  closedBound_ = std::max(closedBound_, part.bound);
  closedTrueBound_ = std::max(closedTrueBound_, part.trueBound);
}

// Both start with the offers of the part that they were parted from.
void PanelTree::addBoth(const Part& parent, Demand fewer, Demand more) {
  const auto offers = std::make_shared<const std::vector<Offer>>(parent.search->offers());
  for (Demand* demand : {&fewer, &more}) {
    auto part = std::make_unique<Part>();
    part->demand = std::move(*demand);
    part->bound = parent.bound;
    part->trueBound = parent.trueBound;
    part->start = offers;
    open_.push_back(std::move(part));
  }
}

// By the panel that is made in the most uneven share; by one of its ways when all panels are whole.
bool PanelTree::split(const Part& part) {
  const std::vector<double> made = part.search->wholePanels();
  const std::vector<WantedPanel>& panels = part.demand.panels;
  size_t panelAt = 0, wayAt = 0;
  double most = kWhole, inAll = 0;
  bool byWay = true;
  for (const bool ways : {false, true}) {
    auto next = made.begin();
    for (size_t p = 0; p < panels.size() && next != made.end(); ++p) {
      double all = 0;
      for (size_t w = 0; w < panels[p].ways.size(); ++w, ++next) {
        all += *next;
        if (!ways || shareOf(*next) <= most) continue;
        most = shareOf(*next), inAll = *next, panelAt = p, wayAt = w;
      }
      if (!ways && shareOf(all) > most)
        most = shareOf(all), inAll = all, panelAt = p, byWay = false;
    }
    if (most > kWhole) break;
  }
  if (most <= kWhole) return false;
  const int low = static_cast<int>(std::floor(inAll));
  const WantedPanel& panel = panels[panelAt];
  Demand fewer = part.demand, more = part.demand;
  if (byWay) {
    fewer.limitWay(panelAt, wayAt, panel.ways[wayAt].least, low);
    more.limitWay(panelAt, wayAt, low + 1, panel.most(panel.ways[wayAt]));
  } else {
    fewer.limitPanel(panelAt, panel.least, low);
    more.limitPanel(panelAt, low + 1, panel.copies);
  }
  addBoth(part, std::move(fewer), std::move(more));
  return true;
}

// By the part of which the most uneven share is left out.
bool PanelTree::splitByPart(const Part& part) {
  const std::vector<double> made = part.search->copies();
  int at = -1;
  double most = kWhole;
  for (size_t p = 0; p < made.size(); ++p) {
    if (shareOf(made[p]) <= most || part.demand.isStrip(static_cast<int>(p))) continue;
    most = shareOf(made[p]);
    at = static_cast<int>(p);
  }
  if (at < 0) return false;
  const int low = static_cast<int>(std::floor(made[at]));
  Demand fewer = part.demand, more = part.demand;
  fewer.limitPart(at, payOfCopy_, 0, low);
  more.limitPart(at, payOfCopy_, low + 1, part.demand.left[at]);
  addBoth(part, std::move(fewer), std::move(more));
  return true;
}

}  // namespace rackside
