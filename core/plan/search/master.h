// SPDX-License-Identifier: GPL-3.0-or-later
// The choice among layouts that boards offer: at most one a board, no part more often than wanted,
// strips in whole panels or wasted. As a linear program it gives prices; its fractions guide the
// choice.
#pragma once

#include <array>
#include <functional>
#include <map>
#include <memory>
#include <vector>

#include "core/plan/layout.h"
#include "core/plan/search/demand.h"

namespace rackside {

struct Offer {
  int board = 0;
  std::vector<int> parts;  // one entry a copy, ascending
  double pay = 0;          // towards the goal
  BoardLayout layout;
  bool asItIs = false;  // what the current plan has on the board, not laid out anew
};

// A plan that is to lie elsewhere than another: of the copies that both have, so many at least on
// other boards.
struct Likeness {
  std::vector<std::vector<int>> parts;  // of that plan, by board, ascending
  std::vector<int> copies;              // that it has, by part
  double leastMoved = 0;
  double missing = 0;  // what each copy short of that costs in fractions; more than any plan allows
  int moved(const Offer& offer) const;
};

class Master {
 public:
  Master(int boards, const Demand& demand, std::vector<Likeness> limits = {});
  ~Master();
  Master(const Master&) = delete;
  Master& operator=(const Master&) = delete;

  void add(const Offer& offer);
  // The offers chosen in fractions; false when the solver gave up.
  bool solve();
  double value() const;
  std::vector<double> prices() const;       // of a copy of each part, ≥ 0 but for decided strips
  double boardPrice(int board) const;       // ≥ 0
  double likenessPrice(int limit) const;    // of a copy on another board, ≥ 0
  double fraction(int offer) const;         // in the order they were added
  double reducedCost(int offer) const;      // what a plan loses by it, ≥ 0
  double copies(int part) const;            // that are laid out
  std::vector<double> wholePanels() const;  // in the order of the ways of all panels
  int offers() const { return offers_; }
  // Takes an offer for sure; forbids it.
  void take(int offer);
  void forbid(int offer);
  // A whole choice that pays more than `atLeast`, the best that a search of fixed length finds (so
  // that a slow machine chooses alike); empty when none was found.
  std::vector<int> wholeChoice(double atLeast, const std::function<bool()>& shouldEnd);
  // The same where only some boards may change: `kept` says by board which offer stays, kFree or
  // kNone. Short, as it is asked for often.
  static constexpr int kFree = -1, kNone = -2;
  std::vector<int> wholeChoiceNear(const std::vector<int>& kept, double atLeast,
                                   const std::function<bool()>& shouldEnd);

 private:
  int addColumn(double pay, std::vector<int> rows, std::vector<double> counts);
  void addPanel(const WantedPanel& panel, const Demand& demand);
  void addLimit(size_t limit, const Demand& demand);
  int column(int offer) const { return firstOffer_ + offer; }
  void askForWhole(double atLeast);
  void freeAll();
  void addBallast();
  std::vector<int> choose(double atLeast, bool near, const std::function<bool()>& shouldEnd);
  struct Problem;
  std::unique_ptr<Problem> problem_;
  int boards_, parts_, offers_ = 0;
  std::vector<int> boardOf_;  // by offer
  int firstOffer_ = 1;
  std::vector<int> wholePanels_;     // columns, by way
  std::array<int, 3> ballast_{};     // columns
  std::vector<char> mayBeNegative_;  // by part: a strip may be worth more than it pays
  std::vector<Likeness> limits_;
  std::vector<std::map<int, int>> excessRows_;  // by limit, then part: more copies than it has
};

// The offers of the numbers chosen, one for each of `boards`, empty ones for the others. Nothing
// for no choice.
std::vector<Offer> planOf(const std::vector<int>& chosen, const std::vector<Offer>& offers,
                          size_t boards);

}  // namespace rackside
