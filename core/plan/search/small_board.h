// SPDX-License-Identifier: GPL-3.0-or-later
// Every set of a few copies that one board can hold, for racks so small that all may be tried.
//
// Of all ways to cut a set from the board's left end the one that ends first leaves most for the
// rest, so a set is reached by the best end over its last sections. Exact for what is worth the
// same wherever it lies; parts with a look are placed well, not best.
#pragma once

#include <functional>
#include <map>
#include <tuple>
#include <vector>

#include "core/plan/search/rack_problem.h"
#include "core/plan/search/strip_places.h"

namespace rackside {

// Few enough boards and copies to try every set?
bool isSmall(const RackProblem& problem);

class SmallBoard {
 public:
  SmallBoard(const BoardMap& map, const RackProblem& problem);
  // One offer for each set that fits; `board` is its number. Fewer when it should end.
  std::vector<Offer> offers(int board, const std::function<bool()>& shouldEnd);

 private:
  struct Section {
    int set = 0, along = 0, steps = 0, from = 0;
  };
  struct Reached {
    int end = -1;  // column; −1: not reached
    Section last;
  };
  using Spots = std::vector<std::vector<Spot>>;  // by item

  int copiesIn(int set, int part) const { return set / radix_[part] % (wanted_[part] + 1); }
  bool contains(int set, int subset) const;
  bool wideEnough(int set, const ItemsAlong& along) const;
  void extend(int set, int subset);
  int nextStart(const Section& section);
  bool ripped(const Section& section, double y, int set, std::vector<StripLayout>* strips);
  const std::vector<Spot>& spots(const Section& section, int item);
  Offer offerOf(int set, int board);

  const RackProblem& problem_;
  BoardItems items_;
  StripPlaces places_;
  std::vector<int> wanted_, radix_;
  int sets_ = 1;
  std::vector<Reached> reached_;
  std::map<std::tuple<int, int, int>, Spots> spots_;       // by direction, length, start
  std::map<std::tuple<int, int, int, int>, bool> canRip_;  // the same and set
};

}  // namespace rackside
