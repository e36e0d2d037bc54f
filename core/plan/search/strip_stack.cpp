// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/strip_stack.h"

#include <algorithm>

namespace rackside {

StackOrder orderFor(const StripPlaces& places, const ItemsAlong& along,
                    const std::vector<ItemPay>& pays, double ripKerfMm) {
  StackOrder order;
  order.payPerMm.assign(along.lengths.size(), 0);
  for (size_t i = 0; i < pays.size(); ++i) {
    const Footprint& f = along.footprints[i];
    if (!f.fits || pays[i].most <= 0) continue;
    order.items.push_back(
        {static_cast<int>(i), f.steps, f.widthMm, places.looked(static_cast<int>(i)), pays[i]});
    const auto at = std::lower_bound(along.lengths.begin(), along.lengths.end(), f.steps);
    double& perMm = order.payPerMm[at - along.lengths.begin()];
    perMm = std::max(perMm, pays[i].most / (f.widthMm + ripKerfMm));
  }
  for (size_t i = 1; i < order.payPerMm.size(); ++i)
    order.payPerMm[i] = std::max(order.payPerMm[i], order.payPerMm[i - 1]);
  std::stable_sort(order.items.begin(), order.items.end(),
                   [](const StackItem& a, const StackItem& b) { return a.pay.most > b.pay.most; });
  return order;
}

void StripStack::add(const State& state) {
  auto at = std::upper_bound(open_.begin(), open_.end(), state.y,
                             [](double y, const Open& o) { return y < o.y; });
  made_.push_back(state);
  if (at != open_.begin() && std::prev(at)->pay >= state.pay) return;
  auto end = at;
  while (end != open_.end() && end->pay <= state.pay) ++end;
  const Open fresh{state.y, state.pay, static_cast<int>(made_.size()) - 1};
  if (end == at) {
    open_.insert(at, fresh);
  } else {
    *at = fresh;
    open_.erase(at + 1, end);
  }
}

std::vector<StripStack::State> StripStack::chain() const {
  std::vector<State> strips;
  for (int i = best_; i > 0; i = made_[i].before) strips.push_back(made_[i]);
  std::reverse(strips.begin(), strips.end());
  return strips;
}

}  // namespace rackside
