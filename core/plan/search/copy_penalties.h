// SPDX-License-Identifier: GPL-3.0-or-later
// Penalties on copies that the best way along a board would use more often than they are wanted.
//
// Each way found says how many copies of each part it uses and what it pays. The penalties under
// which no mixture of those ways gains by using too many are where the ceiling of the board is
// looked for next: the duals of a small linear program.
#pragma once

#include <vector>

namespace rackside {

class CopyPenalties {
 public:
  // `left`: copies wanted, by part.
  explicit CopyPenalties(const std::vector<int>& left) : left_(&left) {}
  // A way along the board, what it pays without penalties and the copies it uses.
  void add(double pay, std::vector<int> copies);
  // By part, ≥ 0; empty when the solver gave up.
  std::vector<double> best() const;

 private:
  struct Way {
    double pay;
    std::vector<int> copies;
  };
  const std::vector<int>* left_;
  std::vector<Way> ways_;
};

}  // namespace rackside
