// SPDX-License-Identifier: GPL-3.0-or-later
// Rules about what a plan is free to do: the ways of cutting among which a plan's bound says that
// none is worth more. Cuts that were made are as they are.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "core/plan/checker_geometry.h"
#include "core/plan/checker_rules.h"
#include "core/plan/rip_directions.h"

namespace rackside::checking {
namespace {

constexpr double kSameRad = 1e-4;
constexpr int kMostCopies = 24;

// Of a line to the board's axis, 0 … π/2.
double slopeOf(const Segment& line) {
  const Point d = line.to - line.from;
  return std::atan2(std::abs(d.y), std::abs(d.x));
}

// Round the finished pieces of a blank, board frame.
Box piecesBox(const Scene& s, const Blank& blank) {
  Box all;
  for (const Piece* piece : s.piecesOf.at(blank.id)) {
    const Box b = boxOf(piece->outline);
    all = {std::min(all.x0, b.x0), std::min(all.y0, b.y0), std::max(all.x1, b.x1),
           std::max(all.y1, b.y1)};
  }
  return all;
}

// Too short or too narrow to go through the machines alone.
bool isSmall(const Piece& piece, const Box& box, const Shop& shop) {
  const double length = box.x1 - box.x0, width = box.y1 - box.y0;
  return piece.kind == PieceKind::part &&
         (length + shop.lengthAllowanceMm + 2 * shop.snipeMm < shop.shortestSafeMm ||
          width + shop.widthAllowanceMm < shop.narrowestSafeMm);
}

}  // namespace

void ruleSquareCrosscuts(const Scene& s, const Report& report) {
  for (const Cut& c : s.plan.cuts)
    if (!c.made && c.kind == CutKind::crosscut && std::numbers::pi / 2 - slopeOf(c.line) > kSameRad)
      report(nameOf(s, c) + " is not square to the board");
}

// Not steeper than a bound is for. Once a board is being cut its pieces are planned by themselves,
// along edges of their own; what a pin keeps runs as it ran.
void ruleRipAngle(const Scene& s, const Report& report) {
  std::map<BoardId, std::vector<double>> angles;
  if (s.request.current)
    for (const Blank& blank : s.request.current->blanks)
      angles[blank.board].push_back(blank.boardFromBlank.angleRad);
  std::set<BoardId> begun;
  for (const Cut& c : s.plan.cuts)
    if (c.made) begun.insert(c.board);
  for (const Cut& c : s.plan.cuts) {
    if (c.kind != CutKind::rip || begun.count(c.board)) continue;
    const Point d = c.line.to - c.line.from;
    const double angle = std::remainder(std::atan2(d.y, d.x), std::numbers::pi);
    const auto& kept = angles[c.board];
    const bool isKept = std::any_of(kept.begin(), kept.end(), [&](double a) {
      return std::abs(std::remainder(angle - a, std::numbers::pi)) <= kSameRad;
    });
    if (std::abs(angle) > kSteepestRipRad + kAngleSlackRad && !isKept)
      report(nameOf(s, c) + " runs off the board's axis by more than 5 degrees");
  }
}

// What a rip has left is trimmed to one blank, or to several that crosscuts could part as well:
// then the bound, which knows one a strip, holds for them too.
void ruleOneBlank(const Scene& s, const Report& report) {
  std::map<std::pair<CutId, bool>, std::vector<const Blank*>> strips;
  for (const Blank& blank : s.plan.blanks) {
    const Cut* cut = s.cuts.at(blank.lastCut);
    size_t steps = 0;
    bool made = cut->made, left = true;
    while (cut->kind == CutKind::trim && cut->parent && ++steps <= s.plan.cuts.size()) {
      left = cut->leftOfParent;
      cut = s.cuts.at(*cut->parent);
      made = made || cut->made;
    }
    // Of a strip that is free without a trim the side is not known here: none shares it.
    if (made || cut->kind != CutKind::rip || steps == 0) continue;
    std::vector<const Blank*>& others = strips[{cut->id, left}];
    const Box own = piecesBox(s, blank);
    for (const Blank* other : others) {
      const Box box = piecesBox(s, *other);
      if (std::max(own.x0 - box.x1, box.x0 - own.x1) < s.request.shop.crosscutKerfMm - kSameMm)
        report(nameOf(s, blank) + " and " + nameOf(s, *other) + " are of one strip");
    }
    others.push_back(&blank);
  }
}

void ruleBlankHolds(const Scene& s, const Report& report) {
  for (const Blank& blank : s.plan.blanks) {
    const auto& pieces = s.piecesOf.at(blank.id);
    const Box first = inBlank(blank, *pieces[0]);
    bool allSmall = true, oneRow = pieces.size() <= static_cast<size_t>(kMostCopies);
    for (const Piece* piece : pieces) {
      const Box box = inBlank(blank, *piece);
      allSmall = allSmall && isSmall(*piece, box, s.request.shop);
      oneRow = oneRow && piece->part == pieces[0]->part && std::abs(box.y0 - first.y0) <= kSameMm &&
               std::abs(box.y1 - first.y1) <= kSameMm;
    }
    if (!oneRow && !allSmall)
      report(nameOf(s, blank) +
             " holds more than up to 24 copies of one part, end to end, and "
             "not all of it is too small to be machined alone");
  }
}

// Both edges, and both ends, have half the allowance to take off at least, so that the least blank
// lies about the middle of what it holds; surplus that stays on may lie anywhere, and small pieces
// where waste or others beside them leave room.
void ruleMiddle(const Scene& s, const Report& report) {
  for (const Blank& blank : s.plan.blanks) {
    const auto& pieces = s.piecesOf.at(blank.id);
    Box span;
    bool allSmall = true;
    for (const Piece* piece : pieces) {
      const Box b = inBlank(blank, *piece);
      allSmall = allSmall && isSmall(*piece, b, s.request.shop);
      span = {std::min(span.x0, b.x0), std::min(span.y0, b.y0), std::max(span.x1, b.x1),
              std::max(span.y1, b.y1)};
    }
    const double endMm = s.request.shop.lengthAllowanceMm / 2 + s.request.shop.snipeMm;
    const double edgeMm = s.request.shop.widthAllowanceMm / 2;
    const double least = -2 * kSameMm;
    if (!allSmall && (std::min(span.x0, blank.roughLengthMm - span.x1) - endMm < least ||
                      std::min(span.y0, blank.roughWidthMm - span.y1) - edgeMm < least))
      report("what " + nameOf(s, blank) + " holds does not lie in its middle");
  }
}

}  // namespace rackside::checking
