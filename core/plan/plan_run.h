// SPDX-License-Identifier: GPL-3.0-or-later
// One run of the planner: a first plan at once on coarse columns, then the search on fine ones,
// each better plan written, checked and handed on.
#pragma once

#include <chrono>
#include <memory>

#include "core/plan/plan_writer.h"
#include "core/plan/search/rack_search.h"

namespace rackside {

class PlanRun {
 public:
  PlanRun(const PlanRequest& request, const PlanOptions& options, RunControl& control);
  Plan make();

 private:
  using Clock = std::chrono::steady_clock;
  // A job on columns of one width, and its maps.
  struct Grid {
    Grid(const PlanRequest& request, const std::vector<BlankKind>& kinds, double cellMm);
    Job job;
    std::vector<std::unique_ptr<BoardMap>> maps;
    std::vector<const BoardMap*> open;  // neither set apart nor forbidden
  };

  RackProblem problemOn(const Grid& grid) const;
  Plan written(const Grid& grid, const std::vector<Offer>& offers, double bound) const;
  void publish(const Grid& grid, const std::vector<Offer>& offers, double bound);
  void search(const Grid& grid, std::vector<Offer> start);
  bool shouldEnd() const;
  double seconds() const;

  const PlanRequest& request_;
  const PlanOptions& options_;
  RunControl& control_;
  Clock::time_point start_ = Clock::now();
  std::vector<BlankKind> kinds_;
  double areaBound_ = 0;
  std::vector<Offer> offers_;
  double bound_ = 0, gridBound_ = 0;
  std::string stopped_;
};

}  // namespace rackside
