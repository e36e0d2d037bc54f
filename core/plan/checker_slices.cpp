// SPDX-License-Identifier: GPL-3.0-or-later
// The rules about what cuts take off: no thin slices, no first rip along a rough edge, no trims
// that may as well be left on, and no more wood left on a blank than that.
#include <algorithm>
#include <cmath>
#include <set>

#include "core/job/saw_rules.h"
#include "core/plan/checker_geometry.h"
#include "core/plan/checker_rules.h"

namespace rackside::checking {
namespace {

constexpr double kStepMm = 2;     // between the places where a slice is measured
constexpr double kAsideMm = 0.6;  // broken corners at the ends of a cut are none of its matter
// What thin and thick are is not looked at more closely than this.
constexpr double kSlackMm = 0.1;

struct Thickness {
  double least = 0, greatest = 0;
};

// The wood of a region along a line square to the cut, farthest from it.
double woodAt(const Polygon& region, Point at, Point away) {
  const Reach reach = reachAlong(region, at, at + away);
  return reach.lo > reach.hi ? 0 : std::max(0.0, reach.hi);
}

Thickness thicknessOf(const Cut& cut, const Divided& d, bool left) {
  const Polygon& waste = left ? d.left : d.right;
  const Point right = rightOf(cut.line);
  const Point away = left ? -1 * right : right;
  const Point from = left ? cut.line.from : cut.line.from + cut.kerfMm * right;
  const Point along = (1 / cut.line.length()) * (cut.line.to - cut.line.from);
  const Reach whole = reachAlong(d.before, from, from + along);
  Thickness t{1e300, 0};
  const auto measure = [&](double s) {
    const double wood = woodAt(waste, from + s * along, away);
    t = {std::min(t.least, wood), std::max(t.greatest, wood)};
  };
  if (whole.hi - whole.lo < 3 * kAsideMm) return {0, 0};
  for (double s = whole.lo + kAsideMm; s < whole.hi - kAsideMm; s += kStepMm) measure(s);
  measure(whole.hi - kAsideMm);
  return t;
}

// Which sides of the cuts hold a blank or are divided further.
std::set<std::pair<CutId, bool>> usedSides(const Scene& s,
                                           const std::map<CutId, Divided>& regions) {
  std::set<std::pair<CutId, bool>> used;
  for (const Cut& c : s.plan.cuts)
    if (c.parent) used.insert({*c.parent, c.leftOfParent});
  for (const Blank& blank : s.plan.blanks) {
    const Polygon rough = blank.roughOutline();
    used.insert(
        {blank.lastCut, isInside(regions.at(blank.lastCut).left, 0.5 * (rough[0] + rough[2]))});
  }
  return used;
}

bool isAtRoughEnd(const Board& board, const Polygon& waste) {
  const Box all = boxOf(board.outline.polygon()), box = boxOf(waste);
  return (!board.leftEndSawn && box.x0 < all.x0 + kAsideMm) ||
         (!board.rightEndSawn && box.x1 > all.x1 - kAsideMm);
}

std::string faultOf(const Scene& s, const Cut& cut, const Divided& d, bool left) {
  const SawRules rules = sawRules(s.request.shop);
  const Thickness t = thicknessOf(cut, d, left);
  if (cut.kind == CutKind::rip && cut.firstRip)
    return cut.kerfMm == 0 || t.least >= rules.leastRipInMm - kSlackMm
               ? ""
               : "runs along the rough edge: that edge is to be jointed";
  if (cut.kind == CutKind::rip) {
    const bool thick = t.least >= rules.leastSliceWidthMm - kSlackMm;
    const bool wedge = t.greatest >= rules.mostSurplusWidthMm - kSlackMm;
    return t.greatest >= rules.leastSliceWidthMm - kSlackMm && (thick || wedge)
               ? ""
               : "takes off a strip too thin to be ripped";
  }
  if (t.greatest >= rules.leastSliceLengthMm - kSlackMm) return "";
  if (cut.kind == CutKind::crosscut &&
      isAtRoughEnd(*s.boards.at(cut.board), left ? d.left : d.right))
    return "";
  return "takes off a slice too thin to be cut off";
}

// The trims that end one blank, up to the rip that freed its strip.
std::vector<const Cut*> trimsOf(const Scene& s, const Blank& blank) {
  std::vector<const Cut*> trims;
  for (const Cut* at = s.cuts.at(blank.lastCut); at && at->kind == CutKind::trim && !at->made;
       at = at->parent ? s.cuts.at(*at->parent) : nullptr) {
    trims.push_back(at);
    if (trims.size() > s.plan.cuts.size()) break;
  }
  return trims;
}

}  // namespace

void ruleSlices(const Scene& s, const Report& report) {
  const auto regions = replay(s);
  const auto used = usedSides(s, regions);
  for (const Cut& cut : s.plan.cuts) {
    if (cut.made || cut.kind == CutKind::curve || !(cut.line.length() > 0)) continue;
    const bool left = used.count({cut.id, true}) > 0, right = used.count({cut.id, false}) > 0;
    if (left == right) continue;
    if (const std::string fault = faultOf(s, cut, regions.at(cut.id), !left); !fault.empty())
      report(nameOf(s, cut) + " " + fault);
  }
}

void ruleSurplus(const Scene& s, const Report& report) {
  const auto regions = replay(s);
  const auto used = usedSides(s, regions);
  const SawRules rules = sawRules(s.request.shop);
  for (const Blank& blank : s.plan.blanks) {
    const Polygon rough = blank.roughOutline();
    const Divided& last = regions.at(blank.lastCut);
    const bool left = isInside(last.left, 0.5 * (rough[0] + rough[2]));
    const double angle = blank.boardFromBlank.angleRad;
    const Box wood = boxOf(turnedBack(left ? last.left : last.right, angle));
    const Box own = boxOf(turnedBack(rough, angle));
    const double along = (wood.x1 - wood.x0) - (own.x1 - own.x0);
    const double across = (wood.y1 - wood.y0) - (own.y1 - own.y0);
    // Beside what stays on by itself a slice too thin to come off does; across, the strip may be as
    // wide as a wider blank in it.
    const Shop& shop = s.request.shop;
    const double mostAlong =
        rules.mostSurplusLengthMm + rules.leastSliceLengthMm + shop.crosscutKerfMm + kSlackMm;
    const double mostAcross = 2 * rules.mostSurplusWidthMm + shop.ripKerfMm + kSlackMm;
    if (along > mostAlong || across > mostAcross)
      report(nameOf(s, blank) + " is left in more wood than it needs");
    std::vector<double> ends;
    for (const Cut* trim : trimsOf(s, blank)) {
      const bool waste = used.count({trim->id, true}) == 0;
      if (waste || used.count({trim->id, false}) == 0)
        ends.push_back(thicknessOf(*trim, regions.at(trim->id), waste).greatest + trim->kerfMm);
    }
    if (ends.size() > 1 &&
        *std::min_element(ends.begin(), ends.end()) < rules.mostSurplusLengthMm - kSlackMm)
      report(nameOf(s, blank) + " is trimmed at both ends, and one could wait for the final cut");
  }
}

}  // namespace rackside::checking
