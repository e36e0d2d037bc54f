// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/strip_stack.h"

#include <algorithm>

namespace rackside {

namespace {

constexpr float kRoundUp = 1 + 1e-6F;  // more than sums of floats lose

// best[h] = max(best[h], best[h − width] + pay) from the lowest up. What lies in one stretch of the
// width does not depend on itself, so that it is vectorised.
void fillWith(float* best, int heights, int width, float pay) {
  for (int from = width; from < heights; from += width) {
    const float* __restrict below = best + from - width;
    float* __restrict here = best + from;
    const int count = std::min(width, heights - from);
    for (int i = 0; i < count; ++i) {
      const float sum = below[i] + pay;
      here[i] = here[i] > sum ? here[i] : sum;
    }
  }
}

}  // namespace

StackOrder orderFor(const StripPlaces& places, const ItemsAlong& along,
                    const std::vector<ItemPay>& pays, double ripKerfMm) {
  StackOrder order;
  order.end = along.reach.hi + kAboveMm + ripKerfMm;
  order.heights = 1 + static_cast<int>(order.end - along.reach.lo + kBelowMm);
  std::vector<std::vector<const StackItem*>> ofLength(along.lengths.size());
  for (size_t i = 0; i < pays.size(); ++i) {
    const Footprint& f = along.footprints[i];
    if (!f.fits || pays[i].most <= 0) continue;
    order.items.push_back(
        {static_cast<int>(i), f.steps, f.widthMm, places.looked(static_cast<int>(i)), pays[i]});
  }
  std::stable_sort(order.items.begin(), order.items.end(),
                   [](const StackItem& a, const StackItem& b) { return a.pay.most > b.pay.most; });
  for (const StackItem& item : order.items) {
    const auto at = std::lower_bound(along.lengths.begin(), along.lengths.end(), item.steps);
    ofLength[at - along.lengths.begin()].push_back(&item);
  }
  order.fills.reserve(along.lengths.size() * order.heights);
  std::vector<float> best(order.heights, 0);
  for (const auto& items : ofLength) {
    for (const StackItem* item : items)
      fillWith(best.data(), order.heights, static_cast<int>(item->widthMm + ripKerfMm),
               static_cast<float>(item->pay.most) * kRoundUp);
    order.fills.insert(order.fills.end(), best.begin(), best.end());
  }
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
