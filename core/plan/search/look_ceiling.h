// SPDX-License-Identifier: GPL-3.0-or-later
// The most that a value map can give to a box that may still be moved a little. Millimetres, board
// frame.
//
// Each point of the map takes the greatest worth in a window to its right and above; the mean of
// that over a box is no less than the mean of the map over the box moved by any shift inside the
// window. Without a window it is the map itself, answered in constant time from sums.
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "core/plan/value_map.h"

namespace rackside {

class LookCeiling {
 public:
  LookCeiling(const ValueMap& map, double shiftX, double shiftY);
  // ≥ map.mean(r moved by (dx, dy)) for all 0 ≤ dx ≤ shiftX, 0 ≤ dy ≤ shiftY.
  double mean(const Rect& r) const;

 private:
  // One axis: cells of the map, extended to the left as far as the window sees, each split where
  // the window's far end enters the next cell.
  struct Axis {
    Axis(double first, double cellMm, int cells, double shift);
    double first, cell, firstPart;        // firstPart: width of a cell's first half
    double perCell, perFirst, perSecond;  // 1 / width
    int before, halves, window;  // cells added in front; halves in all; cells the window spans
    // The half that holds `at`, the one after it, and how far into it (0…1).
    struct Spot {
      int half, next;
      double share;
    };
    Spot find(double at) const;
    double width(int half) const { return half % 2 == 0 ? firstPart : cell - firstPart; }
  };
  double sumTo(const Axis::Spot& x, const Axis::Spot& y) const;

  Axis x_, y_;
  std::vector<float> sums_;  // (halves + 1)² prefix sums of worth · area
};

// Ceilings of one map for a ladder of windows, made when first asked for. Not for several threads
// at once.
class LookCeilings {
 public:
  static constexpr int kMostSteps = 22;  // windows up to 7.5 · 2¹⁰ mm
  explicit LookCeilings(const ValueMap& map) : map_(&map) {}
  const LookCeiling& exact() { return at(0, 0); }
  const LookCeiling& covering(double shiftX, double shiftY);
  double greatestWorth() const;

 private:
  const LookCeiling& at(int stepX, int stepY);
  const ValueMap* map_;
  std::array<std::array<std::unique_ptr<LookCeiling>, kMostSteps>, kMostSteps> made_;
};

}  // namespace rackside
