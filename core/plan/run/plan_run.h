// SPDX-License-Identifier: GPL-3.0-or-later
// One run of the search: a first plan at once on coarse columns, or what still stands of the
// current one with the rest laid out anew; then the search on fine columns. Each better plan is
// written and handed on. Panels are parts of the request in several ways (demand.h), and a plan
// holds whole ones only, as loose strips.
#pragma once

#include <chrono>
#include <functional>
#include <memory>

#include "core/plan/pins.h"
#include "core/plan/plan_writer.h"
#include "core/plan/run/reduction.h"
#include "core/plan/search/pin_filler.h"
#include "core/plan/search/rack_search.h"

namespace rackside {

// A run's share of the time, and who listens to it.
struct RunTime {
  std::chrono::steady_clock::time_point start;  // of all runs for one request
  double untilSeconds = 0, limitSeconds = 0;    // of this run, of all; from then on
  std::function<void(const Plan&)> better;      // each better plan; null: nobody asks
  std::function<bool()> isEnough;               // ends it sooner; null: nothing does
};

class PlanRun {
 public:
  PlanRun(const Reduced& reduced, const PlanOptions& options, const PlanChoice& choice,
          std::vector<PinnedSection> pins, const RunTime& time, RunControl& control);
  // The best one first. Not checked, and not finished (core/plan/run/finish.h).
  std::vector<Plan> make();

 private:
  using Clock = std::chrono::steady_clock;
  // A job on columns of one width, and its maps; null for boards that `without` says.
  struct Grid {
    Grid(const PlanRun& run, const std::vector<BlankKind>& kinds, double cellMm,
         const std::vector<char>& without);
    Job job;
    std::vector<std::unique_ptr<BoardMap>> maps;
    std::vector<const BoardMap*> open;
  };

  void findStanding();
  bool isPinned(const Piece& piece) const;  // or milled with one that is
  void fillPins(const Grid& grid);
  void setUpGoal();
  bool leastStock() const { return options_.goal == PlanGoal::leastStock; }
  RackProblem problemOn(const Grid& grid) const;
  RackProblem goalOn(const Grid& grid) const;
  Demand demandFor(bool stock) const;
  double payOf(const std::vector<int>& parts) const;
  void takeOutSurplus(Plan& plan) const;
  double stockBound(const Plan& plan, const std::vector<Offer>& offers) const;
  void payForStock(const Grid& grid, std::vector<Offer>& offers) const;
  void startPlainly(const Grid& grid);
  double worthOf(const std::vector<Offer>& offers) const;
  double leastWood(double copies) const;
  std::map<BoardId, StockCharge> charges() const;
  std::vector<WrittenSection> sectionsOf(const Grid& grid, const Offer& offer) const;
  Plan written(const Grid& grid, const std::vector<Offer>& offers) const;
  void publish(const Grid& grid, const std::vector<Offer>& offers);
  void search(const Grid& grid);
  void searchCoarsely(const Grid& grid);
  bool goOn(RackSearch& search, const Grid& grid, const std::function<bool()>& isEnough);
  void noteBounds(const RackSearch& search);
  void toFinerColumns(const Grid& fine);
  void findOthers(RackSearch& search);
  std::string whyStopped() const;
  bool shouldEnd() const;
  double seconds() const;

  const PlanRequest& request_;
  const PlanOptions& options_;
  const PlanChoice choice_;
  const RunTime time_;
  RunControl& control_;
  std::vector<PinnedSection> pins_;
  std::vector<const Board*> boards_;  // neither spoken for nor forbidden
  std::vector<BlankKind> kinds_;
  std::vector<BlankKind> goalKinds_;  // with what they are worth towards the goal
  double payOfCopy_ = 0;              // least stock only
  std::vector<int> wanted_;           // copies by part that are left to the search
  std::vector<int> held_;             // copies by part that are there already
  std::vector<int> heldElsewhere_;    // of those, strips that are no longer on these boards
  std::vector<WantedPanel> panels_;
  std::vector<int> stripsOf_;                           // by part: strips of a copy
  std::vector<std::vector<FilledSection>> besidePins_;  // by board, as its pins
  double pinnedWorth_ = 0;                              // a bound of what the pinned sections hold
  std::vector<Offer> offers_;
  std::vector<Offer> pool_;                // found on coarse columns, for the fine ones
  std::vector<std::vector<Offer>> plans_;  // offers_, then those that really differ
  double until_ = 0;                       // seconds: when the step at hand should end
  double bound_ = 0, gridBound_ = 0;
  double payBound_ = 1e300;          // least stock: of pay
  double payBoundOfCopies_ = 1e300;  // … of plans with no more copies than the best
  const ValueMaps noLooks_;
  std::string stopped_;
};

}  // namespace rackside
