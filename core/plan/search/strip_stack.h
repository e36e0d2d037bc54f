// SPDX-License-Identifier: GPL-3.0-or-later
// The rip of one section: strips stacked across the board, each above the last by a kerf.
//
// States are (y' from where the next strip may begin, pay so far), extended from the lowest up; a
// state that pays no more than a lower one is dropped. Since y' is not gridded the result is exact
// for pays that do not depend on y', and for those that do up to the steps of their spots.
#pragma once

#include <algorithm>
#include <limits>
#include <vector>

#include "core/plan/search/prices.h"
#include "core/plan/search/strip_places.h"

namespace rackside {

struct StackItem {
  int item = 0;
  int steps = 0;
  double widthMm = 0;
  bool looked = false;
  ItemPay pay;
};

// The items of one direction at one set of prices: those that pay, best first, and a ceiling for
// what is still to be stacked: whole millimetres filled with items no longer than a length,
// wherever they may lie.
struct StackOrder {
  std::vector<StackItem> items;
  // No stack that begins at y' pays more; `length` is an index in ItemsAlong::lengths.
  double mostFrom(double y, int length) const {
    const int mm = static_cast<int>(end - y);
    return mm <= 0 ? 0 : fills[static_cast<size_t>(length) * heights + std::min(mm, heights - 1)];
  }
  double mostOf(int length) const { return fills[static_cast<size_t>(length + 1) * heights - 1]; }
  double end = 0;            // y' up to which a stack may reach, its last kerf included
  int heights = 0;           // in whole millimetres
  std::vector<float> fills;  // [length · heights + height]
};
// A stack begins a millimetre below the wood and may end two above it.
constexpr double kBelowMm = 1, kAboveMm = 2;
StackOrder orderFor(const StripPlaces& places, const ItemsAlong& along,
                    const std::vector<ItemPay>& pays, double ripKerfMm);

class StripStack {
 public:
  struct State {
    double y = 0, pay = 0;
    int before = -1;  // in the order they were made
    int item = -1;
    Spot spot;
    double bottomMm = 0;
  };

  // Spots of an item in this section, made when first asked for.
  template <class SpotsOf, class MayAdd>
  double best(const ItemsAlong& along, const StackOrder& order, int length, double kerfMm,
              const SpotsOf& spotsOf, const MayAdd& mayAdd);

  // Of the last best(): the chain of its best state, lowest strip first.
  std::vector<State> chain() const;
  const State& state(int index) const { return made_[index]; }

 private:
  template <class SpotsOf, class MayAdd>
  double greedy(const ItemsAlong& along, const StackOrder& order, int length, double kerfMm,
                const SpotsOf& spotsOf, const MayAdd& mayAdd);
  void add(const State& state);

  struct Open {
    double y, pay;
    int made;
  };
  std::vector<Open> open_;
  std::vector<State> made_;
  int best_ = 0;
};

// From the lowest strip up, what leaves most to hope for: a stack that others have to beat.
template <class SpotsOf, class MayAdd>
double StripStack::greedy(const ItemsAlong& along, const StackOrder& order, int length,
                          double kerfMm, const SpotsOf& spotsOf, const MayAdd& mayAdd) {
  for (;;) {
    const int at = static_cast<int>(made_.size()) - 1;
    const double y = made_.back().y, before = made_.back().pay;
    double most = 0;
    State next;
    for (const StackItem& item : order.items) {
      if (item.steps > along.lengths[length]) continue;
      const double after = y + item.widthMm + kerfMm;
      if (after > order.end || item.pay.most + order.mostFrom(after, length) <= most) continue;
      if (!mayAdd(at, item)) continue;
      for (const Spot& spot : spotsOf(item)) {
        if (spot.hi < y) continue;
        const double pay = item.pay.plainValue * spot.gain - item.pay.cost;
        const double bottom = std::max(y, static_cast<double>(spot.lo));
        const double top = bottom + item.widthMm + kerfMm;
        if (pay > 0 && pay + order.mostFrom(top, length) > most) {
          most = pay + order.mostFrom(top, length);
          next = {top, before + pay, at, item.item, spot, bottom};
        }
        if (!item.looked) break;
      }
    }
    if (next.item < 0) return before;
    made_.push_back(next);
  }
}

template <class SpotsOf, class MayAdd>
double StripStack::best(const ItemsAlong& along, const StackOrder& order, int length, double kerfMm,
                        const SpotsOf& spotsOf, const MayAdd& mayAdd) {
  open_.clear(), made_.clear();
  made_.push_back({along.reach.lo - kBelowMm, 0, -1, -1, {}, 0});
  open_.push_back({made_[0].y, 0, 0});
  double bestPay = greedy(along, order, length, kerfMm, spotsOf, mayAdd);
  best_ = static_cast<int>(made_.size()) - 1;
  for (size_t next = 0; next < open_.size(); ++next) {
    const Open from = open_[next];
    if (from.pay + order.mostFrom(from.y, length) <= bestPay) continue;
    double lowestTop = std::numeric_limits<double>::infinity();
    for (const StackItem& item : order.items) {
      if (item.steps > along.lengths[length] || from.y + item.widthMm >= lowestTop) continue;
      const double after = from.y + item.widthMm + kerfMm;
      if (after > order.end || from.pay + item.pay.most + order.mostFrom(after, length) <= bestPay)
        continue;
      if (!mayAdd(from.made, item)) continue;
      double bestOfItem = 0;
      for (const Spot& spot : spotsOf(item)) {
        if (spot.hi < from.y) continue;
        const double pay = item.pay.plainValue * spot.gain - item.pay.cost;
        if (pay <= bestOfItem) continue;
        bestOfItem = pay;
        const double bottom = std::max(from.y, static_cast<double>(spot.lo));
        const double top = bottom + item.widthMm;
        if (from.pay + pay + order.mostFrom(top + kerfMm, length) > bestPay) {
          add({top + kerfMm, from.pay + pay, from.made, item.item, spot, bottom});
          if (from.pay + pay > bestPay) {
            bestPay = from.pay + pay;
            best_ = static_cast<int>(made_.size()) - 1;
          }
        }
        if (item.looked) continue;
        lowestTop = std::min(lowestTop, top);
        break;
      }
    }
  }
  return bestPay;
}

}  // namespace rackside
