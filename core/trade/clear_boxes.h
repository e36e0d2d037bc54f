// SPDX-License-Identifier: GPL-3.0-or-later
// What a box of a cutting grid holds: its largest clear rectangle, and the cells that any rectangle
// of the least size can cover.
#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "core/trade/cuttings.h"

namespace rackside {

using CellSet = std::vector<std::uint64_t>;  // one bit a cell

struct BoxContent {
  GridRect largest;  // area 0: none
  CellSet coverable;
};

class ClearBoxes {
 public:
  ClearBoxes(const CuttingGrid& grid, std::vector<LeastCutting> least)
      : grid_(grid), least_(std::move(least)) {}
  // Kept, since a search asks for the same box again and again.
  const BoxContent& content(const GridRect& box);
  // The largest clear rectangle in the box that overlaps none of `taken`.
  GridRect largestBeside(const GridRect& box, const std::vector<GridRect>& taken) const;

 private:
  template <class Visit>
  void eachMaximal(const CuttingGrid& grid, const GridRect& box, Visit visit) const;
  bool longEnough(const GridRect& r) const;

  const CuttingGrid& grid_;
  std::vector<LeastCutting> least_;
  std::map<GridRect, BoxContent> known_;
};

}  // namespace rackside
