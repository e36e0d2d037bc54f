// SPDX-License-Identifier: GPL-3.0-or-later
// The reductions that a request asks for, one below the other, down to what the search takes.
#pragma once

#include "core/plan/bench.h"
#include "core/plan/run/in_gangs.h"

namespace rackside {

class Reductions {
 public:
  // `kept`, of the current plan, is out of the search's sight. Gangs like those `dissolved` are not
  // formed.
  Reductions(const PlanRequest& request, const PlanOptions& options, Kept kept,
             const std::vector<Gang>& dissolved);

  const Reduced& lowest() const { return chain_.empty() ? top_ : chain_.back()->below(); }
  // A plan of lowest() as one of the request.
  void raise(Plan& plan) const;
  std::vector<std::string> limits() const;
  // Gangs that have no place in a plan of lowest().
  std::vector<Gang> gangsMissingIn(const Plan& plan) const;
  bool hasGangs() const { return gangs_ != nullptr; }

 private:
  Reduced top_;
  std::vector<std::unique_ptr<Reduction>> chain_;  // from the top down
  const InGangs* gangs_ = nullptr;                 // one of them
};

}  // namespace rackside
