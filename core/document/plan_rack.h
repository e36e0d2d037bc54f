// SPDX-License-Identifier: GPL-3.0-or-later
// The rack's plan, made in one way whoever asks for it: the verbs plan and cut, and the window. It
// starts from the plan at hand: what is cut stays, pinned pieces stay where they are, and what
// still stands is what the search begins with.
#pragma once

#include <vector>

#include "core/document/rack.h"
#include "core/plan/planner.h"

namespace rackside {

// What the pictures of the boards tell; the planner itself looks at none.
class BoardPictures {
 public:
  virtual ~BoardPictures() = default;
  // Into `worth` and `tones`: how the wood looks, for parts that want a look or may be glued up.
  virtual void readLooks(PlanRequest& request, RunControl& control) const = 0;
  // The strips of panels in the order that shows their seams least.
  virtual void orderPanels(const std::vector<Board>& boards, Plan& plan) const = 0;
};

struct RackPlanOptions {
  PlanOptions planning;
  PlanChoice choice;
  std::vector<PieceId> pinned;     // besides those that are pinned in the plan itself
  std::vector<BoardId> forbidden;  // boards not to be touched
  bool afresh = false;             // of the plan at hand only what is cut counts
};

// With the weights of the rack's own shop.
RackPlanOptions planOptionsFor(const Rack& rack);

// Plans of rack.parts from rack.boards, the best first, with what would make parts fit that were
// left out and the spare stock of parts that show; `pictures` null: none are read. The time that
// reading them takes is not planning. Fails as makePlans() does, and never leaves a fault of the
// planner's to the caller.
Result<std::vector<Plan>> planRack(const Rack& rack, const RackPlanOptions& options,
                                   const BoardPictures* pictures, RunControl& control);

}  // namespace rackside
