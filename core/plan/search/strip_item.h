// SPDX-License-Identifier: GPL-3.0-or-later
// What the search lays in strips on one board, and how it is paid.
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "core/plan/board_map.h"

namespace rackside {

// Kinds that differ only in the face that shows are one item: where it may lie is the union, its
// worth the better of the two.
struct StripItem {
  int part = 0;
  int copies = 1;
  std::array<int, 2> kindOn{-1, -1};  // by the face that shows; −1: not on this one
  double plainValue = 0;              // of all copies on plain wood
  bool looked = false;                // its worth depends on where it lies

  int anyKind() const { return kindOn[0] >= 0 ? kindOn[0] : kindOn[1]; }
};

// The items of a board along one of its directions.
struct ItemsAlong {
  int direction = 0;  // of the map
  double angleRad = 0, sine = 0, cosine = 1;
  Reading reading = Reading::forPlans;
  double leanAColumn = 0;             // y' for a column off a section's middle; for bounds
  Interval reach;                     // y' of the sure wood
  std::vector<Footprint> footprints;  // by item
  std::vector<int> lengths;           // distinct steps of the items that fit, ascending
};

// All that is fixed about one board for one reading of its columns.
class BoardItems {
 public:
  BoardItems(const BoardMap& map, const Job& job, const ValueMaps& worth, Reading reading);

  const BoardMap& map() const { return *map_; }
  const Job& job() const { return *job_; }
  Reading reading() const { return reading_; }
  const std::vector<StripItem>& items() const { return items_; }
  // As the map's directions; reckoned when they are first asked for (not by several threads at
  // once).
  const ItemsAlong& along(int direction) const;
  size_t directions() const { return along_.size(); }
  // Those that sections are looked for in: for bounds they hold all.
  std::vector<int> roots() const;
  // Null when the item is worth the same everywhere on that face.
  const ValueMap* look(const StripItem& item, Face face) const;
  bool empty() const;

 private:
  ItemsAlong itemsAlong(int direction) const;
  const BoardMap* map_;
  const Job* job_;
  const ValueMaps* worth_;
  Reading reading_;
  std::vector<StripItem> items_;
  mutable std::vector<std::unique_ptr<const ItemsAlong>> along_;
};

}  // namespace rackside
