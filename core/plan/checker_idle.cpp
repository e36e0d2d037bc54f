// SPDX-License-Identifier: GPL-3.0-or-later
// The rule about cuts that are made for nothing.
#include <set>

#include "core/plan/checker_rules.h"

namespace rackside::checking {
namespace {

using Side = std::pair<CutId, bool>;  // of a cut; true for left

bool liesLeft(const Cut& cut, Point p) {
  return cross(cut.line.to - cut.line.from, p - cut.line.from) > 0;
}

// What the cuts of a plan lead to.
class Use {
 public:
  explicit Use(const Scene& s) {
    for (const auto& [id, cut] : s.cuts)
      if (cut->parent) divided_[{*cut->parent, cut->leftOfParent}] = cut;
    for (const Blank& blank : s.plan.blanks) {
      const Polygon rough = blank.roughOutline();
      held_.insert(
          {blank.lastCut, liesLeft(*s.cuts.at(blank.lastCut), 0.5 * (rough[0] + rough[2]))});
      for (std::optional<CutId> at = blank.lastCut; at && leading_.insert(*at).second;)
        at = s.cuts.at(*at)->parent;
    }
  }

  bool leadsToABlank(const Cut& cut) const { return leading_.count(cut.id) > 0; }
  bool isWaste(const Cut& cut, bool left) const {
    return !divided_.count({cut.id, left}) && !held_.count({cut.id, left});
  }
  const Cut* dividing(const Cut& cut, bool left) const {
    const auto found = divided_.find({cut.id, left});
    return found == divided_.end() ? nullptr : found->second;
  }

 private:
  std::map<Side, const Cut*> divided_;
  std::set<Side> held_;
  std::set<CutId> leading_;
};

// The cut of the same kind that would take off what this one takes off, and nothing more of use.
const Cut* thatDoesBoth(const Use& use, const Cut& cut) {
  for (const bool waste : {true, false}) {
    const Cut* next = use.dividing(cut, !waste);
    if (!use.isWaste(cut, waste) || !next || next->kind != cut.kind || next->made) continue;
    const bool facing = liesLeft(*next, 0.5 * (cut.line.from + cut.line.to));
    if (use.isWaste(*next, facing)) return next;
  }
  return nullptr;
}

}  // namespace

void ruleIdle(const Scene& s, const Report& report) {
  const Use use(s);
  for (const Cut& cut : s.plan.cuts) {
    if (cut.made) continue;
    if (!use.leadsToABlank(cut))
      report(nameOf(s, cut) + " frees nothing");
    else if (const Cut* next = thatDoesBoth(use, cut))
      report(nameOf(s, cut) + " parts waste from waste: " + nameOf(s, *next) +
             " would take off both");
  }
}

}  // namespace rackside::checking
