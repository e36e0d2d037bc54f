// SPDX-License-Identifier: GPL-3.0-or-later
// Parts that may be glued up, as strips: each number of strips makes its strips a part of their
// own, and the search chooses among all of them. A panel is whole or not there.
#pragma once

#include "core/plan/panel_strips.h"
#include "core/plan/run/reduction.h"

namespace rackside {

class InStrips : public Reduction {
 public:
  explicit InStrips(const Reduced& above);
  void raise(Plan& plan) const override;
  std::string limits() const override;

  // Is there a part that may be planned in strips?
  static bool serves(const PlanRequest& request);

 private:
  void addWays(const Part& part);
  Plan currentInStrips() const;

  const PlanRequest& above_;
  std::vector<PartWay> ways_;  // as the parts below
  Plan current_;
};

}  // namespace rackside
