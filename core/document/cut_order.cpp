// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document/cut_order.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace rackside {
namespace {

struct Goal {
  const Blank* blank = nullptr;
  const Piece* piece = nullptr;  // its dearest
  const Spare* spare = nullptr;
  bool shows = false;
  bool lacksSpare() const { return shows && !(spare && spare->board); }
};

class Turns {
 public:
  explicit Turns(const Rack& rack) : rack_(rack), plan_(*rack.plan) {
    for (const Cut& cut : plan_.cuts) cuts_[cut.id] = &cut;
  }

  std::vector<CutTurn> inOrder() {
    std::vector<Goal> goals;
    for (const Blank& blank : plan_.blanks) goals.push_back(goalOf(blank));
    std::stable_sort(goals.begin(), goals.end(), [](const Goal& a, const Goal& b) {
      const auto rank = [](const Goal& g) {
        return std::tuple(g.shows, g.lacksSpare(), g.piece ? g.piece->worth : 0);
      };
      return rank(a) > rank(b);
    });
    for (const Goal& goal : goals) addWayTo(goal);
    std::vector<const Cut*> rest;
    for (const Cut& cut : plan_.cuts) rest.push_back(&cut);
    std::stable_sort(rest.begin(), rest.end(),
                     [](const Cut* a, const Cut* b) { return a->order < b->order; });
    for (const Cut* cut : rest) add(*cut, {});
    return std::move(turns_);
  }

 private:
  Goal goalOf(const Blank& blank) const {
    Goal goal;
    goal.blank = &blank;
    for (const Piece& piece : plan_.pieces) {
      if (piece.blank != blank.id) continue;
      if (!goal.piece || piece.worth > goal.piece->worth) goal.piece = &piece;
      const Part* part = rack_.findPart(piece.part);
      goal.shows = goal.shows || (part && part->showing != Showing::none);
    }
    if (goal.piece && goal.shows)
      for (const Spare& spare : plan_.spares)
        if (spare.piece == goal.piece->id) goal.spare = &spare;
    return goal;
  }

  void addWayTo(const Goal& goal) {
    std::vector<const Cut*> way;
    auto found = cuts_.find(goal.blank->lastCut);
    while (found != cuts_.end() && way.size() <= cuts_.size()) {
      way.push_back(found->second);
      if (!found->second->parent) break;
      found = cuts_.find(*found->second->parent);
    }
    for (auto cut = way.rbegin(); cut != way.rend(); ++cut) add(**cut, goal);
  }

  void add(const Cut& cut, const Goal& goal) {
    if (cut.made || !done_.insert(cut.id).second) return;
    turns_.push_back({&cut, goal.piece, goal.spare});
  }

  const Rack& rack_;
  const Plan& plan_;
  std::map<CutId, const Cut*> cuts_;
  std::set<CutId> done_;
  std::vector<CutTurn> turns_;
};

}  // namespace

std::vector<CutTurn> cutsByRisk(const Rack& rack) {
  return Turns(rack).inOrder();
}

}  // namespace rackside
