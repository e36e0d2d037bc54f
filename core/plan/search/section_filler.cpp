// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/section_filler.h"

namespace rackside {

bool SectionFiller::mayAdd(int state, const StackItem& item, const std::vector<int>& left) const {
  const auto& items = board_->items();
  const int part = items[item.item].part;
  int free = left[part] - items[item.item].copies;
  for (int s = state; s > 0 && free >= 0; s = stack_.state(s).before)
    if (items[stack_.state(s).item].part == part) free -= items[stack_.state(s).item].copies;
  return free >= 0;
}

FilledSection SectionFiller::fill(const ItemsAlong& along, int from, int steps, int length,
                                  const StackOrder& order, const std::vector<int>& left,
                                  const Intervals& taken, int mostStarts) {
  FilledSection filled;
  filled.layout = {from, from + steps, along.direction, {}};
  const BoardMap& map = board_->map();
  Intervals keepOff = taken;
  if (map.hasMetal())
    for (const Interval& m : map.metalOver(along.direction, from, from + steps))
      keepOff.push_back(m);
  std::vector<std::vector<Spot>> spots(board_->items().size());
  std::vector<char> known(board_->items().size(), 0);
  const auto spotsOf = [&](const StackItem& item) -> const std::vector<Spot>& {
    if (!known[item.item]) {
      known[item.item] = 1;
      places_->places(along, item.item, from, from + steps - item.steps, keepOff, spots[item.item],
                      mostStarts);
    }
    return spots[item.item];
  };
  stack_.best(along, order, length, ripKerfMm_, spotsOf,
              [&](int state, const StackItem& item) { return mayAdd(state, item, left); });
  for (const StripStack::State& s : stack_.chain()) {
    const StripItem& item = board_->items()[s.item];
    const double worth =
        item.plainValue * places_->gainAt(along, s.item, s.spot.face, s.spot.column, s.bottomMm);
    filled.layout.strips.push_back({item.kindOn[s.spot.face], s.spot.column, s.bottomMm, worth});
    filled.worth += worth;
    filled.parts.insert(filled.parts.end(), item.copies, item.part);
  }
  return filled;
}

}  // namespace rackside
