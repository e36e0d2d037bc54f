// SPDX-License-Identifier: GPL-3.0-or-later
// All that is fixed about one board for one list of kinds: directions to rip in, columns, marks by
// permission, where metal bars a cut.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <string>
#include <vector>

#include "core/plan/milling.h"
#include "core/plan/pins.h"
#include "core/plan/rip_map.h"
#include "core/wood/board.h"

namespace rackside {

// What the planning works on, fixed for one run.
struct Job {
  const std::vector<Part>& parts;
  const std::vector<BlankKind>& kinds;
  const Shop& shop;
  double cellMm = 5;
  // Columns to 2.5 mm: what is measured in such columns is taken times this on finer ones.
  int finer() const { return std::max(1, static_cast<int>(std::lround(2.5 / cellMm))); }
};

class BoardMap {
 public:
  // Pinned sections of this board are closed to others; their directions are among its own.
  BoardMap(const Board& board, const Job& job, const std::vector<PinnedSection>& pins = {});

  const Board& board() const { return *board_; }
  const ColumnGrid& grid() const { return grid_; }
  double columnX(int column) const { return grid_.first + column * grid_.width; }
  // Directions are numbered as rips().all; those for plans come first.
  int directions() const { return rips_.forPlans; }
  const RipDirections& rips() const { return rips_; }
  double angleRad(int direction) const { return rips_.all[direction].angleRad; }
  // Kinds that this board's species, thickness and faces allow.
  const std::vector<int>& kindsHere(Reading reading = Reading::forPlans) const {
    return kindsHere_[static_cast<int>(reading)];
  }
  // May a section begin at this column? (The crosscut before it must not meet metal.)
  bool mayBegin(int column) const { return !crosscutBarred_[column]; }
  // May a section lie over columns from…to − 1, its last crosscut included? Read for bounds, when
  // it might with a start up to a column later.
  bool freeOfPins(int from, int to, Reading reading) const;
  // x to which pinned sections use the board; −1e9 without any.
  double pinnedUpTo() const;
  // Bottoms y' at which a blank of the kind may lie when it starts at `column`.
  Intervals bottoms(int kind, int direction, int column, const Footprint& f) const;
  // The same for wood that meets just these columns: `cover` must be inside the outline (rough
  // size), `clear` free of marks (finished size). Adds to `out`; an empty range asks nothing. Not
  // for several threads at once: what a direction asks for is reckoned when it is first looked at.
  struct Columns {
    int from = 0, to = -1;
  };
  struct Across {
    double widthMm = 0, sideMm = 0;
    Reading reading = Reading::forPlans;
    Lean lean = {};
  };
  void bottomsOver(int kind, int direction, Columns cover, Columns clear, const Across& across,
                   Intervals& out) const;
  // Least and greatest y' of the sure wood in a direction.
  Interval reachAcross(int direction) const;
  // y' that rips on a section over columns from…to must keep away from.
  Intervals metalOver(int direction, int from, int to, const Lean& lean = {}) const;
  bool hasMetal() const { return !metal_.empty(); }
  bool hasPins() const { return !pinned_.empty(); }

 private:
  using Permission = std::vector<char>;  // as reach_: is it barred?
  struct MarkReach {
    int mark;
    Face face;
    Polygons reach;
  };
  struct Direction {
    std::vector<Track> outside;
    std::vector<std::vector<Track>> byReach;              // as reach_
    std::vector<std::vector<const Track*>> byPermission;  // as permissions_, into byReach
    std::vector<Track> metal;
  };

  void findKinds(const Job& job);
  void findReaches(const Shop& shop);
  void findCrosscuts(double kerfMm);
  const Direction& lookAlong(int direction) const;
  int permissionOf(const BlankKind& kind, const Part& part, double takeOffMm);

  const Board* board_;
  Warp warp_;
  Polygons usable_;
  std::vector<MarkReach> reach_;
  Polygons metal_;
  Intervals pinned_;  // x of pinned sections, last crosscut included
  ColumnGrid grid_;
  RipDirections rips_;
  std::vector<Permission> permissions_;
  std::array<std::vector<int>, 2> permissionOfKind_;  // by reading; meaningful for kindsHere_
  std::array<std::vector<int>, 2> kindsHere_;
  std::vector<char> crosscutBarred_;
  mutable std::vector<std::unique_ptr<Direction>> directions_;  // when they are looked along
};

}  // namespace rackside
