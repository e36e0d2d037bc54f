// SPDX-License-Identifier: GPL-3.0-or-later
// Where an item may lie across one direction of a board, and what its place adds to its worth.
#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "core/plan/search/look_ceiling.h"
#include "core/plan/search/strip_item.h"

namespace rackside {

// Bottoms y' from lo to hi; worth = plain value · gain. Spots ascend by lo; those of an item with a
// look may overlap.
struct Spot {
  float lo = 0, hi = 0;
  float gain = 1;
  int column = 0;        // the start, for places of a plan
  std::int8_t face = 0;  // that shows, likewise
};

class StripPlaces {
 public:
  // `blind`: looks add nothing, for a first search that has no time for them.
  StripPlaces(const BoardItems& items, double lookWeight, bool blind = false);

  // Does the item's worth depend on where it lies?
  bool looked(int item) const { return looked_[item] != 0; }

  // A ceiling: every legal place whose start is in columns first…last is in a spot, and none is
  // worth more than that spot says. For bounds y' turns a little about `pivot`, a column near the
  // section's middle. `chunk` starts are taken together, for the sake of time; less is tighter.
  void ceilings(const ItemsAlong& along, double pivot, int item, int first, int last, int chunk,
                std::vector<Spot>& out);
  // The same for an item with a look, each start by itself and finer steps across: slow.
  void sharpCeilings(const ItemsAlong& along, double pivot, int item, int first, int last,
                     std::vector<Spot>& out);
  // Takes out of ceilings what metal in the section bars: for plans all that places() leaves out,
  // for bounds only bottoms from which one of the strip's two rips would meet it.
  void keepRipsOff(const Intervals& metal, const ItemsAlong& along, int item,
                   std::vector<Spot>& spots) const;
  // Places that a plan may use as they are, for up to mostStarts + 1 starts in columns first…last
  // (both ends are among them). Worth is true at lo; `metal` holds y' that no rip may meet.
  static constexpr int kSomeStarts = 64, kEveryStart = 1 << 20;
  void places(const ItemsAlong& along, int item, int first, int last, const Intervals& metal,
              std::vector<Spot>& out, int mostStarts = kSomeStarts);
  // Worth of the item at one place, by the mean of the map, relative to plain wood.
  double gainAt(const ItemsAlong& along, int item, int face, int column, double bottomMm);
  // No place gives more.
  double greatestGain(int item) const { return greatestGain_[item]; }

 private:
  struct Range {
    int first, last;
    double pivot = 0;
  };
  double gain(const ItemsAlong& along, int item, int face, Range starts, double bottomMm,
              double heightMm, bool exact);
  // The most that an item may be worth from any of several starts, by step across: what is already
  // known to be worth as much need not be looked at from each of them.
  struct Group {
    int face = 0;
    Range starts{0, 0, 0};
    std::vector<float> most;  // below 0: not reckoned yet
  };
  void clearSteps(const ItemsAlong& along, int item);
  int stepOf(const ItemsAlong& along, double y) const;
  void begin(const ItemsAlong& along, int face, Range starts);
  float mostOf(const ItemsAlong& along, int item, Group& group, int step);
  void addLooked(const ItemsAlong& along, int item, int face, Range start, const Intervals& bottoms,
                 std::vector<Spot>& out);
  void addPlaces(const ItemsAlong& along, int item, int face, int start, const Intervals& bottoms,
                 std::vector<Spot>& out);
  double metalKerfMm() const;
  void raiseSteps(const ItemsAlong& along, int item, int face, Range starts,
                  const Intervals& bottoms);

  const BoardItems* board_;
  double lookWeight_;
  std::map<const ValueMap*, LookCeilings> looks_;
  std::vector<std::array<LookCeilings*, 2>> looksOf_;  // by item and face
  std::vector<double> greatestGain_;
  std::vector<char> looked_;
  // Scratch.
  Intervals bottoms_;
  std::vector<Spot> steps_;      // by step across the board: the best so far
  std::array<Group, 2> groups_;  // by face
};

}  // namespace rackside
