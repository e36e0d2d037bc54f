// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/with_panels.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <optional>
#include <set>

#include "core/plan/around_made.h"
#include "core/plan/checker.h"
#include "core/plan/made_cuts.h"
#include "core/plan/panel_strips.h"
#include "core/plan/score.h"
#include "core/plan/with_gangs.h"

namespace rackside {
namespace {

// In how many strips the current plan has a part; 1 among them for copies in one piece.
std::set<int> countsNow(const PlanRequest& request, const PartId& part) {
  std::set<int> counts;
  if (!request.current) return counts;
  for (const PlannedPanel& panel : request.current->panels)
    if (panel.part == part) counts.insert(static_cast<int>(panel.strips.size()));
  for (const Piece& piece : request.current->pieces)
    if (piece.part == part && piece.kind == PieceKind::part) counts.insert(1);
  return counts;
}

const Board* boardOf(const PlanRequest& request, const BoardId& id) {
  for (const Board& board : request.boards)
    if (board.id == id) return &board;
  return nullptr;
}

class PanelPlanning {
 public:
  PanelPlanning(const PlanRequest& request, const PlanOptions& options, const PlanChoice& choice,
                RunControl& control)
      : request_(request), options_(options), choice_(choice), control_(control) {
    isCut_ = request.current && hasMadeCuts(*request.current);
    own_ = request_;
    own_.parts.clear();
    for (const Part& part : request.parts) addWays(part);
    if (request_.current) {
      current_ = currentInStrips();
      own_.current = &current_;
    }
  }

  Result<std::vector<Plan>> make() {
    PlanOptions options = options_;
    options.onBetter = [&](const Plan& better) { take(better); };
    Result<std::vector<Plan>> made = isCut_
                                         ? planAroundMade(own_, options, choice_, control_)
                                         : planWithGangs(own_, options, choice_, panels_, control_);
    if (!made) return made.error();
    take(made->front());
    if (!best_) return Error{"The panels cannot be planned: " + fault_ + "."};
    std::vector<Plan> plans{*best_};
    for (size_t i = 1; i < made->size(); ++i)
      if (auto other = inPanels(std::move(made.value()[i]))) plans.push_back(std::move(*other));
    for (Plan& plan : plans)
      plan.remarks.emplace_back(
          "The bound is for the numbers of strips that were tried, all strips of a panel alike.");
    return plans;
  }

 private:
  // What is planned already stays in as many strips as it is in. On cut day one number serves: what
  // is cut is no longer the search's to choose.
  void addWays(const Part& part) {
    std::vector<int> counts = stripCounts(part, request_.boards, request_.shop);
    if (const std::set<int> now = countsNow(request_, part.id); !now.empty() && mayBeGluedUp(part))
      counts = {now.rbegin(), now.rend()};
    if (isCut_) counts.resize(1);
    WantedPanel panel;
    panel.copies = part.copies;
    for (PartWay& way : waysOf(part, counts, request_.boards, request_.shop)) {
      panel.ways.push_back({static_cast<int>(own_.parts.size()), way.strips, 0});
      own_.parts.push_back(way.strip);
      ways_.push_back(std::move(way));
    }
    if (panel.ways.size() > 1 || panel.ways[0].strips > 1) panels_.push_back(std::move(panel));
  }

  Plan currentInStrips() const {
    Plan current = *request_.current;
    current.panels.clear();
    for (Piece& piece : current.pieces) {
      if (piece.kind != PieceKind::panelStrip) continue;
      const auto panel = std::find_if(
          request_.current->panels.begin(), request_.current->panels.end(),
          [&](const PlannedPanel& p) { return p.part == piece.part && p.copy == piece.copy; });
      const Board* board = boardOf(request_, piece.board);
      if (panel == request_.current->panels.end() || !board) continue;
      const int strips = static_cast<int>(panel->strips.size());
      for (const PartWay& way : ways_)
        if (way.part == piece.part && way.strips == strips &&
            way.species == woodKey(board->species, request_.shop.ownSpecies)) {
          piece.part = way.strip.id;
          piece.kind = PieceKind::part;
          piece.copy = (piece.copy - 1) * strips + piece.strip;
          break;
        }
    }
    return current;
  }

  // The plan in panels; none when the checker refuses it.
  std::optional<Plan> inPanels(Plan plan) {
    const std::vector<Unplaced> reasons = std::move(plan.unplaced);
    plan.unplaced.clear();
    intoPanels(request_, ways_, plan);
    giveScore(request_, options_.weights, plan);
    plan.bound = std::max(plan.bound, plan.value);
    plan.gridBound = std::max(plan.gridBound, plan.value);
    plan.seconds = std::chrono::duration<double>(Clock::now() - start_).count();
    sayWhy(reasons, plan);
    const auto breaches = checkPlan(request_, plan);
    if (breaches.empty()) return plan;
    fault_ = breaches[0].message + " (" + breaches[0].rule + ")";
    return std::nullopt;
  }

  // A better plan, kept and handed on.
  void take(Plan plan) {
    auto whole = inPanels(std::move(plan));
    if (!whole) return;
    best_ = std::move(whole);
    if (options_.onBetter) options_.onBetter(*best_);
  }

  void sayWhy(const std::vector<Unplaced>& reasons, Plan& plan) const {
    std::map<PartId, PartId> partOf;
    for (const PartWay& way : ways_) partOf[way.strip.id] = way.part;
    std::set<std::pair<PartId, int>> placed;
    for (const Piece& piece : plan.pieces) placed.insert({piece.part, piece.copy});
    for (const Part& part : request_.parts)
      for (int copy = 1; copy <= part.copies; ++copy) {
        if (placed.count({part.id, copy})) continue;
        Unplaced u;
        u.why = "not all strips of the panel found a place";
        for (const Unplaced& reason : reasons) {
          const auto of = partOf.find(reason.part);
          if ((of == partOf.end() ? reason.part : of->second) == part.id) u = reason;
        }
        u.part = part.id;
        u.copy = copy;
        plan.unplaced.push_back(std::move(u));
      }
  }

  using Clock = std::chrono::steady_clock;
  const PlanRequest& request_;
  const PlanOptions& options_;
  const PlanChoice& choice_;
  RunControl& control_;
  Clock::time_point start_ = Clock::now();
  bool isCut_ = false;
  std::vector<PartWay> ways_;  // as own_.parts
  std::vector<WantedPanel> panels_;
  PlanRequest own_;  // in strips
  Plan current_;
  std::optional<Plan> best_;
  std::string fault_;  // the latest that the checker found
};

}  // namespace

bool hasPanels(const PlanRequest& request) {
  return std::any_of(request.parts.begin(), request.parts.end(), [&](const Part& part) {
    const std::vector<int> counts = stripCounts(part, request.boards, request.shop);
    return counts.size() > 1 || counts[0] > 1;
  });
}

Result<std::vector<Plan>> planWithPanels(const PlanRequest& request, const PlanOptions& options,
                                         const PlanChoice& choice, RunControl& control) {
  return PanelPlanning(request, options, choice, control).make();
}

}  // namespace rackside
