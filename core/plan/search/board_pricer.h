// SPDX-License-Identifier: GPL-3.0-or-later
// Lays out one board by itself, as well as prices ask for, and says how much better it could be.
#pragma once

#include <functional>
#include <memory>

#include "core/plan/layout.h"
#include "core/plan/search/prices.h"
#include "core/plan/search/rack_problem.h"
#include "core/plan/search/section_filler.h"
#include "core/plan/search/section_shelf.h"
#include "core/plan/search/section_tree.h"

namespace rackside {

struct PricedLayout {
  BoardLayout layout;
  double worth = 0;        // towards the goal
  std::vector<int> parts;  // one entry a copy, ascending
  double pay = 0;          // worth − prices
  double ceiling = 0;      // no layout of the board pays more
};

// With what was found on the way to it: worth being offered as well.
struct PricedLayouts : PricedLayout {
  std::vector<PricedLayout> others;
};

struct PricerEffort {
  double leaveOpen = 0;  // pay between layout and ceiling that is good enough
  int mostSplits = 400;
  int mostPenaltySteps = 1;
  bool wantLayout = true;
};

class BoardPricer {
 public:
  // Read for plans, sections are looked for in the directions for plans, and the ceiling is one for
  // those; read for bounds, in all. `blindSearch`: looks count only when the sections found are
  // filled, not in finding them; the ceiling is then none.
  BoardPricer(const BoardMap& map, const RackProblem& problem, Reading reading,
              bool blindSearch = false);

  // `left`: copies that may be used of each part.
  PricedLayouts solve(const Prices& prices, const std::vector<int>& left,
                      const PricerEffort& effort, PathSpace& space,
                      const std::function<bool()>& shouldEnd);
  // The way found by the last solve(), filled again with other copies left.
  PricedLayout fillAgain(const Prices& prices, const std::vector<int>& left);
  // The best of what the sections found so far can be put together to, without a ceiling; quick.
  PricedLayout recombine(const Prices& prices, const std::vector<int>& left) const;
  // Where sections lie; a direction of the map may be a range.
  struct WaySection {
    int direction, from, steps;
    double ceiling;
  };
  // Of the last solve(): the way along the board that gave the ceiling.
  const std::vector<WaySection>& way() const { return way_; }
  // A layout for plans near such sections, found when the board was read for bounds: at angles
  // about those of each.
  PricedLayout follow(const std::vector<WaySection>& way, const Prices& prices,
                      const std::vector<int>& left);
  // What makes its next ceiling tighter; serves any pricer of the same board, whatever its reading.
  struct Learnt {
    // Added to the price of a part that the best way along this board would use more often than it
    // is wanted: a layout within the wanted copies pays at most path + Σ penalty · wanted.
    std::vector<double> penalty;
    double target = 0;  // about what the best layout pays: where penalties aim the ceiling
  };
  const Learnt& learnt() const { return learnt_; }
  void learn(const Learnt& learnt) { learnt_ = learnt; }
  const BoardMap& map() const { return items_.map(); }
  size_t bytes() const { return tree_ ? tree_->bytes() : 0; }
  size_t nodes() const { return tree_ ? tree_->nodes() : 0; }

 private:
  std::vector<ItemPay> paysAt(const StripPlaces& places, const Prices& prices,
                              const std::vector<int>& left) const;
  void narrow(const PricerEffort& effort, double& ceiling, std::vector<PathSection>& path,
              const std::function<bool()>& shouldEnd);
  void add(FilledSection filled, const Prices& prices, std::vector<int>& free, PricedLayout& out);
  void total(PricedLayout& out) const;
  void trimEnds(SectionLayout& section) const;
  void shelveNear(const WaySection& s, int spare, const Prices& prices,
                  const std::vector<int>& left);
  FilledSection fillAlong(int direction, int from, int to, const Prices& prices,
                          const std::vector<int>& left);
  PricedLayout realise(const std::vector<PathSection>& path, const Prices& prices,
                       const Prices& raised, const std::vector<int>& left);
  static double payOf(const FilledSection& filled, const Prices& raised);
  const StackOrder& orderAlong(int along, const Prices& prices, const std::vector<int>& left);
  FilledSection fill(const PathSection& section, const StackOrder& order, const Prices& raised,
                     const std::vector<int>& free);
  bool penalise(const std::vector<int>& excess, double open);

  BoardItems items_;
  std::vector<float> stopPay_;  // of ending the cutting at each column: minus the stock used
  Learnt learnt_;
  StripPlaces places_;                  // of the layouts
  std::unique_ptr<StripPlaces> blind_;  // of the search, when it is blind
  std::unique_ptr<SectionTree> tree_;
  std::vector<PathSection> lastPath_;
  std::vector<WaySection> way_;
  std::vector<StackOrder> seen_;  // of a blind search: by direction, with looks
  SectionFiller filler_;
  SectionShelf shelf_;
};

}  // namespace rackside
