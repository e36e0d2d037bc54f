// SPDX-License-Identifier: GPL-3.0-or-later
// The regions that a board's cuts leave, from the plan's tree of cuts.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/plan/plan.h"

namespace rackside {

// The border that a cut gives to the wood on its left or on its right.
Segment borderOf(const Cut& cut, bool left);
bool isCrosswise(const Cut& cut);  // across the board rather than along it
bool isLeftOf(const Segment& line, Point p);
Point middleOf(const Segment& s);
// Whether the middle of a blank that the plan has on the board lies on the piece of it.
bool holdsBlank(const Polygon& piece, const Plan& plan, const BoardId& board);

class CutTree {
 public:
  // A region: what cut `first` leaves on its left (second) or right; {"", true} is the whole board.
  using Key = std::pair<std::string, bool>;

  CutTree(const Board& board, const Plan& plan);

  const std::vector<const Cut*>& cuts() const { return cuts_; }  // in working order
  const Polygons& region(const Key& key) const;
  Key parentOf(const Cut& cut) const;  // the region it divides
  // The cuts above, nearest first, each with the side it was left on.
  std::vector<std::pair<const Cut*, bool>> ancestors(const Cut& cut) const;
  // Nothing but crosswise cuts above it and itself crosswise: it runs over the board's full width.
  bool overFullWidth(const Cut& cut) const;
  bool isLeaf(const Key& key) const;
  std::vector<Key> leaves() const;
  std::vector<Key> sections() const;  // regions between cuts of the full width, by x
  // The section a cut works in; the whole board when it is over the full width.
  Key sectionOf(const Cut& cut) const;

 private:
  const Cut* find(const std::string& id) const;
  std::vector<const Cut*> cuts_;
  std::map<Key, Polygons> regions_;
  std::map<Key, const Cut*> dividedBy_;
};

}  // namespace rackside
