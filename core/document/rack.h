// SPDX-License-Identifier: GPL-3.0-or-later
// The document: a rack of boards, the parts wanted of it, the shop, and the plan.
#pragma once

#include <optional>
#include <vector>

#include "core/base/kept_keys.h"
#include "core/job/part.h"
#include "core/job/shop.h"
#include "core/plan/plan.h"
#include "core/wood/board.h"

namespace rackside {

struct Rack {
  std::vector<Board> boards;
  std::vector<Part> parts;
  Shop shop;
  std::optional<Plan> plan;
  KeptKeys partsExtra;  // unknown top-level keys of parts.json

  Board* findBoard(const BoardId& id);
  const Board* findBoard(const BoardId& id) const;
  const Board* findBoardNamed(std::string_view nameOrTag) const;
  Part* findPart(const PartId& id);
  const Part* findPart(const PartId& id) const;
};

}  // namespace rackside
