// SPDX-License-Identifier: GPL-3.0-or-later
// Requests that the search cannot take as they are, turned into ones that it can, and its plans
// turned back: panels into strips, what is cut or shall stay out of sight, small parts into gangs.
// Each works on what the one above it leaves.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "core/plan/planner.h"
#include "core/plan/search/demand.h"

namespace rackside {

struct Reduced {
  PlanRequest request;
  std::vector<WantedPanel> panels;  // of parts of the request that are strips
  std::vector<int> held;            // by part: strips of panels that are there already; or empty
};

class Reduction {
 public:
  virtual ~Reduction() = default;
  Reduction() = default;
  Reduction(const Reduction&) = delete;
  Reduction& operator=(const Reduction&) = delete;

  const Reduced& below() const { return below_; }
  // Turns a plan of what is below into one of what is above: pieces, blanks, cuts, panels, wood
  // used and bounds. What it is worth, what is left out and its remarks are for finish().
  virtual void raise(Plan& plan) const = 0;
  // What the bound covers, where that is less than the request; else nothing.
  virtual std::string limits() const { return {}; }

 protected:
  Reduced below_;
};

}  // namespace rackside
