// SPDX-License-Identifier: GPL-3.0-or-later
// The rip of one section: strips stacked across the board, each above the last by a kerf.
//
// States are (y' from where the next strip may begin, pay so far), extended from the lowest up; a
// state that pays no more than a lower one is dropped. Since y' is not gridded the result is exact
// for pays that do not depend on y', and for those that do up to the steps of their spots.
#pragma once

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

// The items of one direction at one set of prices: those that pay, best first, and the most that a
// millimetre across the board can pay with items no longer than each length.
struct StackOrder {
  std::vector<StackItem> items;
  std::vector<double> payPerMm;  // by index in ItemsAlong::lengths
};
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
  double best(const ItemsAlong& along, const StackOrder& order, int mostSteps, double payPerMm,
              double kerfMm, const SpotsOf& spotsOf, const MayAdd& mayAdd);

  // Of the last best(): the chain of its best state, lowest strip first.
  std::vector<State> chain() const;
  const State& state(int index) const { return made_[index]; }

 private:
  void add(const State& state);

  struct Open {
    double y, pay;
    int made;
  };
  std::vector<Open> open_;
  std::vector<State> made_;
  int best_ = 0;
};

template <class SpotsOf, class MayAdd>
double StripStack::best(const ItemsAlong& along, const StackOrder& order, int mostSteps,
                        double payPerMm, double kerfMm, const SpotsOf& spotsOf,
                        const MayAdd& mayAdd) {
  open_.clear(), made_.clear();
  made_.push_back({along.reach.lo - 1, 0, -1, -1, {}, 0});
  open_.push_back({made_[0].y, 0, 0});
  best_ = 0;
  double bestPay = 0;
  for (size_t next = 0; next < open_.size(); ++next) {
    const Open from = open_[next];
    if (from.pay + payPerMm * (along.reach.hi - from.y + kerfMm) <= bestPay) continue;
    double lowestTop = std::numeric_limits<double>::infinity();
    for (const StackItem& item : order.items) {
      if (item.steps > mostSteps || from.y + item.widthMm >= lowestTop) continue;
      const double room = along.reach.hi - from.y - item.widthMm;
      if (room < -2 || from.pay + item.pay.most + payPerMm * std::max(0.0, room) <= bestPay)
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
        add({top + kerfMm, from.pay + pay, from.made, item.item, spot, bottom});
        if (from.pay + pay > bestPay) {
          bestPay = from.pay + pay;
          best_ = static_cast<int>(made_.size()) - 1;
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
