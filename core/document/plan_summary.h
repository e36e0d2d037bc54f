// SPDX-License-Identifier: GPL-3.0-or-later
// What a plan comes to, in the figures that a maker knows.
#pragma once

#include <optional>
#include <string>

#include "core/document/rack.h"

namespace rackside {

struct PlanSummary {
  int pieces = 0, wanted = 0;
  int boards = 0;         // opened
  double boardsM2 = 0;    // all of them
  double boardFeet = 0;   // the same by the rule; 0 where no thickness is known
  double yieldShare = 0;  // of their wood that ends in parts
  int cuts = 0;           // by the saw
  int edgesToJoint = 0;   // straight edges that the jointer makes
  int fenceSettings = 0;  // board by board, each rough width once
  double price = 0;       // of the boards opened; 0 where none has a price
  std::optional<double>
      worstLook;  // of the pieces that want one: 0 plain wood, 1 all they wish for
  std::string worstPiece;
};
PlanSummary summaryOf(const Rack& rack, const Plan& plan);

}  // namespace rackside
