// SPDX-License-Identifier: GPL-3.0-or-later
// Ceilings on what a section can pay, for all sections of a board at once, refined only where the
// best way along the board goes.
//
// A section is (direction, start column, length), its length that of one of its blanks. Reckoning
// the best rip of each one at each set of prices would take seconds a board. Instead, a node of
// the tree stands for a box of starts and lengths along one direction, and one rip is reckoned for
// all of it: every blank lies on the columns that it covers wherever in the box it starts. That is
// a ceiling for each section of the box. The best way along the board by these ceilings (path())
// is a ceiling for the board; the nodes it goes through are split, until it goes through single
// sections
// (branch and bound; Land and Doig 1960). What a place allows does not depend on prices, so the
// tree and its spots are kept; at new prices sums are done again, and only where the best way might
// go.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "core/plan/search/strip_stack.h"

namespace rackside {

struct PathSection {
  int along = 0;   // index in BoardItems::along()
  int from = 0;    // column
  int length = 0;  // index in ItemsAlong::lengths
  int node = 0;
  double ceiling = 0;
};

// Room for one thread's sums over a board, used again for the next board.
struct PathSpace {
  std::vector<float> reach;        // best pay from a column on
  std::vector<StackOrder> orders;  // [along]; without heights until it is asked for
};

class SectionTree {
 public:
  SectionTree(const BoardItems& board, StripPlaces& places, double ripKerfMm);

  // Takes new prices over: every ceiling is raised by the most that they can add. `space` serves
  // until the next call.
  void setPays(const std::vector<ItemPay>& pays, PathSpace& space);
  // The best way along the board by the ceilings as they are, and its pay; those that it goes
  // through are reckoned from the kept spots first.
  // `stopPay`: what ending the cutting at each column adds (0 or less, never rising).
  double path(const std::vector<float>& stopPay, std::vector<PathSection>& sections);
  // Splits a node of the path, or looks closer at a single section; false when there is no more to
  // it.
  bool refine(int node);
  // Adds the copies that the rip behind a node's ceiling uses of each part.
  void countParts(int node, std::vector<int>& copies);
  bool single(int node) const;
  // May no section lie over columns from…to − 1?
  bool barred(const ItemsAlong& along, int from, int to) const;
  const StackOrder& order(int along);
  const ItemsAlong& along(int index) const { return board_->along(index); }
  size_t nodes() const { return nodes_.size(); }
  size_t bytes() const;

 private:
  struct Run {  // spots of one item in a node
    int item;
    bool sharp;
    std::uint32_t count, first;
  };
  struct Node {
    int along = 0, from0 = 0, from1 = 0, length0 = 0, length1 = 0;
    bool dead = false;     // no blank of such a length finds a place
    bool stale = true;     // its ceiling is true, but was not reckoned at these pays
    int child = -1;        // two, one after the other
    float ceiling = 1e9F;  // of the rip
    std::vector<Run> runs;
    std::vector<Spot> spots;
  };
  // What the best way asks of a node, close together: sections of its shortest length, which serves
  // best, from any of its starts.
  struct Step {
    int from = 0, to = 0, steps = 0;  // starts from…to − 1
    float pay = 0;
    bool open = false;  // neither dead nor split
  };

  void addRoots();
  int add(Node node);
  double pivotOf(const Node& node) const;
  void split(int node);
  int halvesOf(const Node& node) const;
  void turn(Node& node, int half) const;
  bool sharpen(int node);
  bool leadFits(Node& node);
  void reckon(Node& node);
  void freshen(int node);
  double bestWay(const std::vector<float>& stopPay, std::vector<PathSection>& sections);
  std::vector<float> riseAlong(const ItemsAlong& along, const std::vector<ItemPay>& pays) const;
  double widthOf(const ItemsAlong& along) const;
  Intervals metalIn(const Node& node) const;
  void findSpots(const Node& node, int item, bool sharp);  // into found_
  std::span<const Spot> spotsOf(Node& node, int item);
  void write(int node);
  template <class Use>
  void eachLength(int node, Use use) const;
  void raiseOver(int node, int low, int high, float* best) const;
  PathSection sectionFrom(int x) const;

  const BoardItems* board_;
  StripPlaces* places_;
  double ripKerfMm_;
  int columns_, finer_;
  std::vector<int> roots_;    // directions that sections are looked for in
  int block_ = 1;             // columns; no section is shorter
  bool mayBeBarred_ = false;  // by metal or pins
  std::vector<Node> nodes_;
  std::vector<Step> steps_;                  // as nodes_
  std::vector<std::vector<int>> nodesFrom_;  // by block: nodes with starts in it
  std::vector<ItemPay> pays_;                // at which the ceilings hold
  PathSpace* space_ = nullptr;
  std::vector<int> runOf_;   // scratch: run by item of the node at hand
  std::vector<Spot> found_;  // scratch of findSpots()
  StripStack stack_;
};

}  // namespace rackside
