// SPDX-License-Identifier: GPL-3.0-or-later
// The choice among layouts that boards offer: at most one a board, no part more often than wanted.
// As a linear program it gives prices; its fractions guide the choice.
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "core/plan/layout.h"

namespace rackside {

struct Offer {
  int board = 0;
  std::vector<int> parts;  // one entry a copy, ascending
  double pay = 0;          // towards the goal
  BoardLayout layout;
  bool asItIs = false;  // what the current plan has on the board, not laid out anew
};

// A limit on the copies that stay on the boards where a plan has them.
struct Likeness {
  std::vector<std::vector<int>> parts;  // of that plan, by board, ascending
  double most = 0;
  int kept(const Offer& offer) const;
};

class Master {
 public:
  // `left`: copies wanted of each part.
  Master(int boards, const std::vector<int>& left, std::vector<Likeness> limits = {});
  ~Master();
  Master(const Master&) = delete;
  Master& operator=(const Master&) = delete;

  void add(const Offer& offer);
  // The offers chosen in fractions; false when the solver gave up.
  bool solve();
  double value() const;
  std::vector<double> prices() const;     // of a copy of each part, ≥ 0
  double boardPrice(int board) const;     // ≥ 0
  double likenessPrice(int limit) const;  // of a copy kept where it was, ≥ 0
  double fraction(int offer) const;       // in the order they were added
  int offers() const { return offers_; }
  // Takes an offer for sure; forbids it.
  void take(int offer);
  void forbid(int offer);
  // A whole choice that pays more than `atLeast`, the best that a search of fixed length finds (so
  // that a slow machine chooses alike); empty when none was found.
  std::vector<int> wholeChoice(double atLeast, const std::function<bool()>& shouldEnd);

 private:
  void askForWhole(double atLeast);
  struct Problem;
  std::unique_ptr<Problem> problem_;
  int boards_, parts_, offers_ = 0;
  std::vector<Likeness> limits_;
};

// The offers of the numbers chosen, one for each of `boards`, empty ones for the others. Nothing
// for no choice.
std::vector<Offer> planOf(const std::vector<int>& chosen, const std::vector<Offer>& offers,
                          size_t boards);

}  // namespace rackside
