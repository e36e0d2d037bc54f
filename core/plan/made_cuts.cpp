// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/made_cuts.h"

#include <algorithm>
#include <set>

#include "core/plan/cut_tree.h"

namespace rackside {
namespace {

std::string cutName(const Board& board, int number) {
  return "cut " + std::to_string(number) + " of board " + board.name;
}

Cut* findCut(Plan& plan, const Board& board, int number) {
  const auto found = std::find_if(plan.cuts.begin(), plan.cuts.end(), [&](const Cut& c) {
    return c.board == board.id && c.order == number;
  });
  return found == plan.cuts.end() ? nullptr : &*found;
}

const Cut* findCut(const Plan& plan, const CutId& id) {
  const auto found =
      std::find_if(plan.cuts.begin(), plan.cuts.end(), [&](const Cut& c) { return c.id == id; });
  return found == plan.cuts.end() ? nullptr : &*found;
}

Error noSuchCut(const Plan& plan, const Board& board, int number) {
  const auto count = std::count_if(plan.cuts.begin(), plan.cuts.end(),
                                   [&](const Cut& c) { return c.board == board.id; });
  if (count == 0)
    return Error{"The plan has no cuts on board " + board.name + ": see rackside cut list."};
  return Error{"There is no " + cutName(board, number) + ": its cuts are numbered 1 to " +
               std::to_string(count) + "."};
}

// The wood that a cut divides.
Polygons divided(const Plan& plan, const Board& board, const Cut& cut) {
  const CutTree tree(board, plan);
  return tree.region(tree.parentOf(cut));
}

// From the first border of `wood` that the endless line meets to the last; nothing where it misses.
std::optional<Segment> acrossWood(const Polygons& wood, const Segment& line) {
  const Point d = (1 / line.length()) * (line.to - line.from);
  double first = 1e300, last = -1e300;
  for (const Polygon& p : wood)
    for (size_t i = 0; i < p.size(); ++i) {
      const Point a = p[i] - line.from, b = p[(i + 1) % p.size()] - line.from;
      const double sideA = cross(d, a), sideB = cross(d, b);
      if ((sideA > 0) == (sideB > 0)) continue;
      const double at = dot(d, a + (sideA / (sideA - sideB)) * (b - a));
      first = std::min(first, at), last = std::max(last, at);
    }
  if (last - first < 1e-3) return std::nullopt;
  return Segment{line.from + first * d, line.from + last * d};
}

Segment movedBy(const Cut& cut, double byMm) {
  const Point d = cut.line.to - cut.line.from;
  const double length = norm(d);
  Point aside{d.y / length, -d.x / length};
  const double towards = isCrosswise(cut) ? aside.x : aside.y;
  if (towards < 0) aside = -1 * aside;
  return {cut.line.from + byMm * aside, cut.line.to + byMm * aside};
}

}  // namespace

bool hasMadeCuts(const Plan& plan) {
  return std::any_of(plan.cuts.begin(), plan.cuts.end(), [](const Cut& c) { return c.made; });
}

bool hasMadeCuts(const Plan& plan, const BoardId& board) {
  return std::any_of(plan.cuts.begin(), plan.cuts.end(),
                     [&](const Cut& c) { return c.made && c.board == board; });
}

Result<Plan> withCutsMade(const Plan& plan, const Board& board, const std::vector<int>& numbers) {
  Plan after = plan;
  for (const int number : numbers) {
    Cut* cut = findCut(after, board, number);
    if (!cut) return noSuchCut(plan, board, number);
    if (cut->made)
      return Error{"It is ticked already: " + cutName(board, number) +
                   ". Use cut back to take a tick back."};
    cut->made = true;
  }
  for (const int number : numbers) {
    const Cut* cut = findCut(after, board, number);
    const Cut* before = cut->parent ? findCut(after, *cut->parent) : nullptr;
    if (before && !before->made)
      return Error{"The wood for " + cutName(board, number) + " is freed by cut " +
                   std::to_string(before->order) + ": tick that one first, or with it."};
  }
  return after;
}

Result<Plan> withCutsTakenBack(const Plan& plan, const Board& board,
                               const std::vector<int>& numbers) {
  Plan after = plan;
  for (const int number : numbers) {
    Cut* cut = findCut(after, board, number);
    if (!cut) return noSuchCut(plan, board, number);
    if (!cut->made) return Error{"It is not ticked: " + cutName(board, number) + "."};
    cut->made = false;
    if (cut->planned) cut->line = *cut->planned;
    cut->planned.reset();
  }
  for (const Cut& cut : after.cuts) {
    if (!cut.made || !cut.parent) continue;
    const Cut* before = findCut(after, *cut.parent);
    if (before && !before->made)
      return Error{cutName(board, cut.order) + " was made in wood that cut " +
                   std::to_string(before->order) + " had freed: take that one back first."};
  }
  return after;
}

Result<Plan> withMiscut(const Plan& plan, const Board& board, int number, const Miscut& miscut) {
  Plan after = plan;
  Cut* cut = findCut(after, board, number);
  if (!cut) return noSuchCut(plan, board, number);
  if (!cut->made) {
    Result<Plan> made = withCutsMade(plan, board, {number});
    if (!made) return made.error();
    after = std::move(made).value();
    cut = findCut(after, board, number);
  }
  if (miscut.line && miscut.line->length() < 1)
    return Error{"The two points of the saw's line lie on each other: give two points apart."};
  Segment line = miscut.line ? *miscut.line : movedBy(*cut, miscut.byMm);
  // Left and right of the cut keep their meaning.
  if (dot(line.to - line.from, cut->line.to - cut->line.from) < 0) std::swap(line.from, line.to);
  const auto across = acrossWood(divided(plan, board, *cut), line);
  if (!across)
    return Error{"That line does not meet the wood that " + cutName(board, number) +
                 " divides: give it in board lengths, x from the left end, y from the near edge."};
  if (!cut->planned) cut->planned = cut->line;
  cut->line = *across;
  return after;
}

Plan onlyWhatIsCut(const Plan& plan) {
  Plan cut;
  cut.seed = plan.seed;
  cut.extra = plan.extra;
  cut.panels = plan.panels;  // they tell how many strips a panel has
  std::set<CutId> made;
  for (const Cut& c : plan.cuts)
    if (c.made) {
      made.insert(c.id);
      cut.cuts.push_back(c);
    }
  std::set<BlankId> free;
  for (const Blank& b : plan.blanks)
    if (made.count(b.lastCut)) {
      free.insert(b.id);
      cut.blanks.push_back(b);
    }
  for (const Piece& p : plan.pieces)
    if (free.count(p.blank)) {
      cut.pieces.push_back(p);
      cut.value += p.worth;
    }
  return cut;
}

}  // namespace rackside
