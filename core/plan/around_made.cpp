// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/around_made.h"

#include <algorithm>

#include "core/plan/bench.h"
#include "core/plan/checker.h"
#include "core/plan/score.h"

namespace rackside {
namespace {

class AroundMade {
 public:
  AroundMade(const PlanRequest& request, const PlanOptions& options)
      : request_(request), weights_(options.weights), bench_(request, options.onlyWhatIsLost) {
    const bool onlyWhatIsLost = options.onlyWhatIsLost;
    for (const Part& part : request.parts)
      for (int copy = 1; copy <= part.copies; ++copy) {
        if (has(bench_.keptCopies(), part.id, copy)) continue;
        const bool sought =
            !onlyWhatIsLost || has(bench_.lostCopies(), part.id, copy) || isOnUncut(part.id, copy);
        (sought ? freeCopies_ : leftOut_)[part.id].push_back(copy);
      }
    askForRest();
  }

  const PlanRequest& rest() const { return rest_; }
  bool anythingLeftToPlan() const { return !rest_.boards.empty() && !rest_.parts.empty(); }

  // A plan of the rest, and what is kept, as one.
  Plan joined(Plan rest) const {
    Plan plan = bench_.kept();
    plan.seed = request_.current->seed;
    std::map<BoardId, int> last;
    for (const Cut& cut : plan.cuts) last[cut.board] = std::max(last[cut.board], cut.order);
    for (Cut& cut : rest.cuts) plan.cuts.push_back(onBoard(std::move(cut), last));
    for (Blank& blank : rest.blanks) {
      if (const OpenPiece* open = openOf(blank.board)) blank.board = open->parent;
      plan.blanks.push_back(std::move(blank));
    }
    for (Piece& piece : rest.pieces) {
      if (const OpenPiece* open = openOf(piece.board)) piece.board = open->parent;
      piece.copy = freeCopies_.at(piece.part)[piece.copy - 1];
      plan.pieces.push_back(std::move(piece));
    }
    keepReasons(plan);
    takeReasons(rest, plan);
    takeFigures(rest, plan);
    return plan;
  }

  // Nothing to plan on: whatever is not cut has no wood.
  Plan withoutRest() const {
    Plan plan = bench_.kept();
    keepReasons(plan);
    for (const auto& [part, copies] : freeCopies_)
      for (const int copy : copies) {
        Unplaced u;
        u.part = part;
        u.copy = copy;
        u.why = "no wood is left that is not cut";
        plan.unplaced.push_back(std::move(u));
      }
    giveScore(request_, weights_, plan);
    plan.bound = plan.gridBound = plan.value;
    plan.stopped = "nothing was left to plan";
    return plan;
  }

 private:
  static bool has(const std::map<PartId, std::set<int>>& copies, const PartId& part, int copy) {
    const auto found = copies.find(part);
    return found != copies.end() && found->second.count(copy) > 0;
  }
  bool isOnUncut(const PartId& part, int copy) const {
    const auto& pieces = request_.current->pieces;
    return std::any_of(pieces.begin(), pieces.end(), [&](const Piece& p) {
      return p.part == part && p.copy == copy && !bench_.isCutInto(p.board);
    });
  }

  // What had no place before, and is not looked for again.
  void keepReasons(Plan& plan) const {
    for (const auto& [part, copies] : leftOut_)
      for (const int copy : copies) {
        Unplaced u;
        u.part = part;
        u.copy = copy;
        u.why = "no place was looked for again";
        for (const Unplaced& was : request_.current->unplaced)
          if (was.part == part && was.copy == copy) u = was;
        plan.unplaced.push_back(std::move(u));
      }
  }

  const OpenPiece* openOf(const BoardId& id) const {
    for (const OpenPiece& open : bench_.open())
      if (open.board.id == id) return &open;
    return nullptr;
  }

  void askForRest() {
    rest_.shop = request_.shop;
    rest_.worth = request_.worth;
    rest_.forbidden = request_.forbidden;
    for (const Board& board : request_.boards)
      if (!bench_.isCutInto(board.id) && !board.cutUp) rest_.boards.push_back(board);
    for (const OpenPiece& open : bench_.open()) {
      if (std::count(rest_.forbidden.begin(), rest_.forbidden.end(), open.parent)) continue;
      rest_.boards.push_back(open.board);
      for (const auto& [place, map] : request_.worth)
        if (std::get<BoardId>(place) == open.parent)
          rest_.worth[{open.board.id, std::get<Face>(place), std::get<Look>(place)}] = map;
    }
    for (const Part& part : request_.parts) {
      Part left = part;
      left.copies = static_cast<int>(freeCopies_[part.id].size());
      if (left.copies > 0) rest_.parts.push_back(std::move(left));
    }
    currentOfRest();
  }

  // The current plan on boards that no saw has touched, its copies numbered among those left.
  void currentOfRest() {
    const auto untouched = [&](const BoardId& id) { return !bench_.isCutInto(id); };
    for (const Blank& b : request_.current->blanks)
      if (untouched(b.board)) current_.blanks.push_back(b);
    for (const Cut& c : request_.current->cuts)
      if (untouched(c.board)) current_.cuts.push_back(c);
    for (Piece p : request_.current->pieces) {
      if (!untouched(p.board)) continue;
      const auto free = freeCopies_.find(p.part);
      if (free == freeCopies_.end()) continue;
      const auto at = std::find(free->second.begin(), free->second.end(), p.copy);
      if (at == free->second.end()) continue;
      p.copy = static_cast<int>(at - free->second.begin()) + 1;
      if (std::count(request_.pinned.begin(), request_.pinned.end(), p.id))
        rest_.pinned.push_back(p.id);
      current_.pieces.push_back(std::move(p));
    }
    if (!current_.blanks.empty()) rest_.current = &current_;
  }

  Cut onBoard(Cut cut, std::map<BoardId, int>& last) const {
    if (const OpenPiece* open = openOf(cut.board)) {
      cut.board = open->parent;
      if (!cut.parent) {
        cut.parent = open->cut;
        cut.leftOfParent = open->left;
      }
    }
    cut.order = ++last[cut.board];
    return cut;
  }

  void takeReasons(Plan& rest, Plan& plan) const {
    for (Unplaced& u : rest.unplaced) {
      u.copy = freeCopies_.at(u.part)[u.copy - 1];
      if (u.nearest)
        if (const OpenPiece* open = openOf(u.nearest->board)) u.nearest->board = open->parent;
      for (Unplaced::Remedy& remedy : u.remedies)
        if (const OpenPiece* open = openOf(remedy.board)) remedy.board = open->parent;
      plan.unplaced.push_back(std::move(u));
    }
    const auto aboutBench = [&](const std::string& remark) {
      return std::any_of(bench_.open().begin(), bench_.open().end(), [&](const OpenPiece& open) {
        return remark.find(open.board.name) != std::string::npos;
      });
    };
    for (std::string& remark : rest.remarks)
      if (!aboutBench(remark)) plan.remarks.push_back(std::move(remark));
  }

  void takeFigures(const Plan& rest, Plan& plan) const {
    giveScore(request_, weights_, plan);
    plan.bound = std::max(plan.value, bench_.kept().value + rest.bound);
    plan.gridBound = std::max(plan.value, bench_.kept().value + rest.gridBound);
    plan.stockMm2 += rest.stockMm2;
    plan.stockBound = rest.stockBound;
    plan.stopped = rest.stopped;
    plan.seconds = rest.seconds;
  }

  const PlanRequest& request_;
  PlanWeights weights_;
  Bench bench_;
  std::map<PartId, std::vector<int>> freeCopies_, leftOut_;  // sought, and not
  Plan current_;
  PlanRequest rest_;
};

// Ids of a plan come from its seed, and none may come back for something else.
unsigned long long nextSeed(const PlanRequest& request, unsigned long long seed) {
  for (const Cut& cut : request.current->cuts)
    for (const char c : cut.id.text) seed = seed * 1099511628211ULL + static_cast<unsigned char>(c);
  return seed;
}

Result<Plan> sound(const PlanRequest& request, Plan plan) {
  const auto breaches = checkPlan(request, plan);
  if (breaches.empty()) return plan;
  return Error{"What has been cut does not go together with a new plan: " + breaches[0].message +
               " (" + breaches[0].rule + "). Unpin what is pinned, or take the last tick back."};
}

}  // namespace

Result<std::vector<Plan>> planAroundMade(const PlanRequest& request, const PlanOptions& options,
                                         const PlanChoice& choice, RunControl& control) {
  const AroundMade around(request, options);
  if (!around.anythingLeftToPlan()) {
    Result<Plan> alone = sound(request, around.withoutRest());
    if (!alone) return alone.error();
    return std::vector<Plan>{std::move(alone).value()};
  }
  PlanOptions own = options;
  own.onlyWhatIsLost = false;
  own.seed = nextSeed(request, options.seed);
  if (options.onBetter)
    own.onBetter = [&](const Plan& better) {
      if (const Result<Plan> plan = sound(request, around.joined(better))) options.onBetter(*plan);
    };
  Result<std::vector<Plan>> rest = makePlans(around.rest(), own, choice, control);
  if (!rest) return rest.error();
  std::vector<Plan> plans;
  for (Plan& one : rest.value()) {
    Result<Plan> plan = sound(request, around.joined(std::move(one)));
    if (!plan && plans.empty()) return plan.error();
    if (plan) plans.push_back(std::move(plan).value());
  }
  return plans;
}

}  // namespace rackside
