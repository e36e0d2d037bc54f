// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/with_panels.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <set>

#include "core/plan/checker.h"
#include "core/plan/panel_strips.h"
#include "core/plan/score.h"

namespace rackside {
namespace {

// Of the time, for each trial of a set of counts; the best one has the rest.
constexpr double kTrialShare = 0.1;
constexpr double kFirstRound = 0.7;  // of a trial's time; then without panels that are not whole

// How many strips the current plan has given a part; 0 when it has no panel of it.
int stripsNow(const PlanRequest& request, const PartId& part) {
  if (!request.current) return 0;
  for (const PlannedPanel& panel : request.current->panels)
    if (panel.part == part) return static_cast<int>(panel.strips.size());
  return 0;
}

bool isPlacedWhole(const PlanRequest& request, const PartId& part) {
  return request.current &&
         std::any_of(request.current->pieces.begin(), request.current->pieces.end(),
                     [&](const Piece& p) { return p.part == part && p.kind == PieceKind::part; });
}

class PanelPlanning {
 public:
  PanelPlanning(const PlanRequest& request, const PlanOptions& options, RunControl& control)
      : request_(request), options_(options), control_(control) {
    for (const Part& part : request.parts) {
      if (!mayBeGluedUp(part)) continue;
      std::vector<int> counts = stripCounts(part, request.boards, request.shop);
      // What is planned already stays in as many strips as it is in.
      if (const int now = stripsNow(request, part.id))
        counts = {now};
      else if (isPlacedWhole(request, part.id))
        counts = {1};
      else if (options.onlyWhatIsLost)
        counts.resize(1);
      if (counts.size() > 1 || counts[0] > 1) choices_[part.id] = counts;
    }
  }

  Result<Plan> make() {
    const std::vector<StripCounts> trials = countsToTry();
    StripCounts chosen = trials.front();
    if (trials.size() > 1)
      for (const StripCounts& counts : trials) {
        const double before = best_ ? best_->value : -1e300;
        if (const Status s = tryOut(counts, kTrialShare * options_.limitSeconds); !s)
          return s.error();
        if (best_ && best_->value > before) chosen = counts;
        if (control_.shouldEnd()) break;
      }
    const double tried = kTrialShare * static_cast<double>(trials.size());
    if (!best_ || !control_.shouldEnd())
      if (const Status s = tryOut(chosen, std::max(0.2, 1 - tried) * options_.limitSeconds); !s)
        return s.error();
    if (!best_) return Error{"The panels cannot be planned: " + fault_ + "."};
    best_->bound = std::max(best_->value, bound_);
    best_->gridBound = std::max(best_->value, gridBound_);
    best_->remarks.emplace_back(
        "The bound is for the numbers of strips that were tried, all strips of a panel alike.");
    return *best_;
  }

 private:
  // Few strips everywhere, then more.
  std::vector<StripCounts> countsToTry() const {
    std::vector<StripCounts> all;
    size_t most = 1;
    for (const auto& [part, counts] : choices_) most = std::max(most, counts.size());
    for (size_t level = 0; level < most; ++level) {
      StripCounts counts;
      for (const auto& [part, choice] : choices_)
        if (const int n = choice[std::min(level, choice.size() - 1)]; n > 1) counts[part] = n;
      if (std::find(all.begin(), all.end(), counts) == all.end()) all.push_back(counts);
    }
    return all;
  }

  // Once with all that is wanted, and again without the panels that did not become whole.
  Status tryOut(const StripCounts& counts, double seconds) {
    std::map<PartId, int> copies;
    for (const auto& [part, n] : counts) copies[part] = 1 << 20;
    for (int round = 0; round < 2; ++round) {
      Plan current;
      const PlanRequest own = requestFor(counts, copies, current);
      PlanOptions options = options_;
      options.limitSeconds = seconds * (round == 0 ? kFirstRound : 1 - kFirstRound);
      options.onBetter = [&](const Plan& better) { (void)take(counts, better, false); };
      const Result<Plan> made = makePlan(own, options, control_);
      if (!made) return made.error();
      if (round == 0) {
        bound_ = std::max(bound_, made->bound);
        gridBound_ = std::max(gridBound_, made->gridBound);
      }
      const StripCounts whole = take(counts, *made, true);
      bool wasted = false;
      for (const auto& [part, n] : counts) {
        const PartId& id = part;
        const auto strips = std::count_if(made->pieces.begin(), made->pieces.end(),
                                          [&id](const Piece& p) { return p.part == id; });
        wasted = wasted || strips > static_cast<long>(whole.at(id)) * n;
        copies[part] = whole.at(part);
      }
      // What is there already keeps its numbers, so that nothing is planned away.
      if (!wasted || control_.shouldEnd() || request_.current) break;
    }
    return success();
  }

  PlanRequest requestFor(const StripCounts& counts, const std::map<PartId, int>& copies,
                         Plan& current) const {
    PlanRequest own = request_;
    own.parts = inStrips(request_.parts, counts, request_.shop);
    for (Part& part : own.parts)
      if (const auto n = counts.find(part.id); n != counts.end())
        part.copies = std::min(part.copies, copies.at(part.id) * n->second);
    std::erase_if(own.parts, [](const Part& part) { return part.copies == 0; });
    if (!request_.current) return own;
    current = *request_.current;
    current.panels.clear();
    for (Piece& piece : current.pieces) {
      const auto n = counts.find(piece.part);
      if (piece.kind != PieceKind::panelStrip || n == counts.end()) continue;
      piece.kind = PieceKind::part;
      piece.copy = (piece.copy - 1) * n->second + piece.strip;
    }
    own.current = &current;
    return own;
  }

  // The plan in panels, kept when it is the best so far; how many of each part are whole.
  StripCounts take(const StripCounts& counts, Plan plan, bool finished) {
    const std::vector<Unplaced> reasons = std::move(plan.unplaced);
    plan.unplaced.clear();
    const StripCounts whole = intoPanels(request_, counts, plan);
    giveScore(request_, options_.weights, plan);
    plan.bound = std::max(plan.bound, plan.value);
    plan.gridBound = std::max(plan.gridBound, plan.value);
    // As good is not better, and more strips are worse; but at the end of a run its reasons are
    // known.
    const bool sameAgain = finished && counts == bestCounts_;
    if (best_ && (sameAgain ? plan.value < best_->value : plan.value <= best_->value)) return whole;
    plan.seconds = seconds();
    sayWhy(reasons, plan);
    if (const auto breaches = checkPlan(request_, plan); !breaches.empty()) {
      fault_ = breaches[0].message + " (" + breaches[0].rule + ")";
      return whole;
    }
    best_ = std::move(plan);
    bestCounts_ = counts;
    if (options_.onBetter) options_.onBetter(*best_);
    return whole;
  }

  void sayWhy(const std::vector<Unplaced>& reasons, Plan& plan) const {
    std::set<std::pair<PartId, int>> placed;
    for (const Piece& piece : plan.pieces) placed.insert({piece.part, piece.copy});
    for (const Part& part : request_.parts)
      for (int copy = 1; copy <= part.copies; ++copy) {
        if (placed.count({part.id, copy})) continue;
        Unplaced u;
        u.why = "not all strips of the panel found a place";
        for (const Unplaced& reason : reasons)
          if (reason.part == part.id) u = reason;
        u.part = part.id;
        u.copy = copy;
        plan.unplaced.push_back(std::move(u));
      }
  }

  double seconds() const { return std::chrono::duration<double>(Clock::now() - start_).count(); }

  using Clock = std::chrono::steady_clock;
  const PlanRequest& request_;
  const PlanOptions& options_;
  RunControl& control_;
  Clock::time_point start_ = Clock::now();
  std::map<PartId, std::vector<int>> choices_;
  std::optional<Plan> best_;
  StripCounts bestCounts_;
  double bound_ = 0, gridBound_ = 0;
  std::string fault_;  // the latest that the checker found
};

}  // namespace

bool hasPanels(const PlanRequest& request) {
  return std::any_of(request.parts.begin(), request.parts.end(), [&](const Part& part) {
    const std::vector<int> counts = stripCounts(part, request.boards, request.shop);
    return counts.size() > 1 || counts[0] > 1;
  });
}

Result<Plan> planWithPanels(const PlanRequest& request, const PlanOptions& options,
                            RunControl& control) {
  if (const Status ok = options.validate(); !ok) return ok.error();
  return PanelPlanning(request, options, control).make();
}

}  // namespace rackside
