// SPDX-License-Identifier: GPL-3.0-or-later
// Rules about the cuts: they are replayed on the board's outline, each dividing a region from
// border to border.
#include <algorithm>
#include <cmath>
#include <set>

#include "core/plan/checker_geometry.h"
#include "core/plan/checker_rules.h"

namespace rackside::checking {
namespace {

// A saw cut is not set out finer than this.
constexpr double kReachMm = 0.5;
constexpr double kParallelRad = 1e-4;

std::vector<const Cut*> inOrder(const Scene& s) {
  std::vector<const Cut*> cuts;
  for (const Cut& c : s.plan.cuts) cuts.push_back(&c);
  std::stable_sort(cuts.begin(), cuts.end(),
                   [](const Cut* a, const Cut* b) { return a->order < b->order; });
  return cuts;
}

double angleBetween(const Segment& a, const Segment& b) {
  const Point da = a.to - a.from, db = b.to - b.from;
  const double across = std::abs(cross(da, db)), along = std::abs(dot(da, db));
  return std::atan2(across, along);
}

bool isRip(const Cut& c) {
  return c.kind == CutKind::rip;
}

// The first rip of the section that a cut is in, itself included; null before any rip. A section
// begins below a crosscut.
const Cut* sectionRip(const Scene& s, const Cut& cut) {
  const Cut* found = isRip(cut) ? &cut : nullptr;
  for (auto up = cut.parent; up && s.cuts.at(*up)->kind != CutKind::crosscut;
       up = s.cuts.at(*up)->parent)
    if (isRip(*s.cuts.at(*up))) found = s.cuts.at(*up);
  return found;
}

// Wood that lies on the bench: what is left of the board is a piece by itself, and its own stages
// may begin with a crosscut.
bool isOnBench(const Scene& s, const Cut& cut) {
  return cut.parent && s.cuts.at(*cut.parent)->made;
}

bool parentsEnd(const Scene& s, const Cut& cut) {
  size_t steps = 0;
  for (auto up = cut.parent; up; up = s.cuts.at(*up)->parent)
    if (++steps > s.plan.cuts.size()) return false;
  return true;
}

std::string stageFault(const Scene& s, const Cut& cut) {
  const CutKind above = cut.parent ? s.cuts.at(*cut.parent)->kind : CutKind::crosscut;
  switch (cut.kind) {
    case CutKind::crosscut:
      return above == CutKind::crosscut || isOnBench(s, cut)
                 ? ""
                 : "crosscuts a strip: crosscuts come before rips";
    case CutKind::rip:
      if (above != CutKind::crosscut && above != CutKind::rip) return "rips after a trim";
      if (!cut.parent) return "rips before any crosscut";
      if (cut.firstRip != (sectionRip(s, cut) == &cut))
        return cut.firstRip ? "is called a first rip and is not"
                            : "rips against a rough edge that no laid line has made straight";
      if (angleBetween(cut.line, sectionRip(s, cut)->line) > kParallelRad)
        return "is a fence cut, but not parallel to the straight edge";
      return "";
    case CutKind::trim:
      if ((above != CutKind::rip && above != CutKind::trim) || !sectionRip(s, cut))
        return "trims before a rip";
      if (std::abs(angleBetween(cut.line, sectionRip(s, cut)->line) - std::acos(-1.0) / 2) >
          kParallelRad)
        return "does not trim square to the ripped edge";
      return "";
    case CutKind::curve:
      return "";
  }
  return "";
}

}  // namespace

Point rightOf(const Segment& line) {
  const Point d = line.to - line.from;
  const double length = norm(d);
  return length > 0 ? (1 / length) * Point{d.y, -d.x} : Point{0, -1};
}

std::map<CutId, Divided> replay(const Scene& s) {
  std::map<CutId, Divided> done;
  for (const Cut* cut : inOrder(s)) {
    Divided d;
    if (!cut->parent) {
      d.before = s.boards.at(cut->board)->outline.polygon();
    } else if (const auto parent = done.find(*cut->parent); parent != done.end()) {
      d.before = cut->leftOfParent ? parent->second.left : parent->second.right;
    }
    d.left = leftOf(d.before, cut->line.from, cut->line.to);
    const Point beyond = cut->kerfMm * rightOf(cut->line);
    d.right = leftOf(d.before, cut->line.to + beyond, cut->line.from + beyond);
    done[cut->id] = std::move(d);
  }
  return done;
}

void ruleCutOrder(const Scene& s, const Report& report) {
  std::map<BoardId, std::set<int>> orders;
  for (const Cut& c : s.plan.cuts) {
    if (!orders[c.board].insert(c.order).second) report(nameOf(s, c) + " shares its number");
    if (c.parent && s.cuts.at(*c.parent)->order >= c.order)
      report(nameOf(s, c) + " comes before the cut that makes its region");
  }
  for (const auto& [board, numbers] : orders)
    if (*numbers.begin() != 1 || *numbers.rbegin() != static_cast<int>(numbers.size()))
      report("the cuts of board " + s.boards.at(board)->name + " are not numbered from 1 on");
}

void ruleCutTree(const Scene& s, const Report& report) {
  std::set<std::pair<std::string, bool>> divided;
  for (const Cut& c : s.plan.cuts) {
    const std::string region = c.parent ? c.parent->text : "board " + c.board.text;
    if (!divided.insert({region, c.parent ? c.leftOfParent : true}).second)
      report(nameOf(s, c) + " divides a region that another cut has divided already");
    if (!parentsEnd(s, c)) report(nameOf(s, c) + " goes back to itself");
  }
}

void ruleEdgeToEdge(const Scene& s, const Report& report) {
  for (const auto& [id, d] : replay(s)) {
    const Cut& cut = *s.cuts.at(id);
    if (cut.made) continue;
    const double length = cut.line.length();
    const Reach reach = reachAlong(d.before, cut.line.from, cut.line.to);
    if (reach.lo > reach.hi)
      report(nameOf(s, cut) + " meets no wood of its region");
    else if (!(length > 0) || reach.lo < -kReachMm || reach.hi > length + kReachMm)
      report(nameOf(s, cut) + " stops inside the wood");
  }
}

void ruleStages(const Scene& s, const Report& report) {
  for (const Cut& c : s.plan.cuts) {
    if (c.made || !parentsEnd(s, c)) continue;
    if (const std::string fault = stageFault(s, c); !fault.empty())
      report(nameOf(s, c) + " " + fault);
  }
}

void ruleKerf(const Scene& s, const Report& report) {
  const Shop& shop = s.request.shop;
  std::map<BoardId, std::vector<std::pair<const Blank*, Polygon>>> blanks;
  for (const Blank& b : s.plan.blanks) blanks[b.board].push_back({&b, b.roughOutline()});
  for (const Cut& c : s.plan.cuts) {
    const double due = c.kind == CutKind::rip ? (c.firstRip ? shop.firstRipKerfMm : shop.ripKerfMm)
                                              : shop.crosscutKerfMm;
    // The jointer takes no kerf.
    const bool jointed = c.firstRip && c.kerfMm == 0;
    if (!c.made && !jointed && c.kerfMm < due - 1e-6)
      report(nameOf(s, c) + " counts less kerf than its saw takes");
    const Point beyond = c.kerfMm * rightOf(c.line);
    const Polygon dust{c.line.from + beyond, c.line.to + beyond, c.line.to, c.line.from};
    for (const auto& [blank, rough] : blanks[c.board])
      if (overlapArea(rough, dust) > kSameMm * c.line.length())
        report(nameOf(s, c) + " turns wood of " + nameOf(s, *blank) + " to dust");
  }
}

void ruleFree(const Scene& s, const Report& report) {
  const auto regions = replay(s);
  std::set<std::pair<CutId, bool>> divided;
  for (const Cut& c : s.plan.cuts)
    if (c.parent) divided.insert({*c.parent, c.leftOfParent});
  for (const Blank& blank : s.plan.blanks) {
    const Polygon rough = blank.roughOutline();
    const Point centre = 0.5 * (rough[0] + rough[2]);
    const Divided& last = regions.at(blank.lastCut);
    const bool left = isInside(last.left, centre);
    const Polygon& region = left ? last.left : last.right;
    bool free = !divided.count({blank.lastCut, left}) && isInside(region, centre);
    for (const Point corner : rough) {
      double off = isInside(region, corner) ? 0 : 1e300;
      for (size_t i = 0; i < region.size() && off > 0; ++i)
        off = std::min(off, distanceToSegment(corner, region[i], region[(i + 1) % region.size()]));
      free = free && off <= kSameMm;
    }
    if (!free) report(nameOf(s, blank) + " is not free after its last cut");
  }
}

void ruleMade(const Scene& s, const Report& report) {
  for (const Cut& c : s.plan.cuts)
    if (c.made && c.parent && !s.cuts.at(*c.parent)->made)
      report(nameOf(s, c) + " is ticked, and the cut that makes its region is not");
  if (!s.request.current) return;
  for (const Cut& was : s.request.current->cuts) {
    if (!was.made) continue;
    const auto found = s.cuts.find(was.id);
    const bool stays = found != s.cuts.end() && found->second->made &&
                       found->second->board == was.board && found->second->line == was.line &&
                       found->second->parent == was.parent &&
                       found->second->leftOfParent == was.leftOfParent;
    if (!stays) report("a cut that has been made, \"" + was.label + "\", was planned away");
  }
}

}  // namespace rackside::checking
