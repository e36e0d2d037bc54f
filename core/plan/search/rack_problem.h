// SPDX-License-Identifier: GPL-3.0-or-later
// What a search over a whole rack works on.
#pragma once

#include <map>
#include <vector>

#include "core/plan/board_map.h"
#include "core/plan/score.h"
#include "core/plan/search/demand.h"
#include "core/plan/search/master.h"
#include "core/plan/value_map.h"

namespace rackside {

struct RackProblem {
  const Job& job;
  // One a board; null for boards that stay as they are.
  const std::vector<const BoardMap*>& maps;
  const ValueMaps& worth;
  double lookWeight = 0.5;
  Demand demand;
  double payOfCopy = 0;  // least stock: of every copy, more than any stock it may take
  // What cutting into a board costs; empty: nothing.
  std::map<BoardId, StockCharge> charges = {};
  bool chargesStock() const { return !charges.empty(); }
};

}  // namespace rackside
