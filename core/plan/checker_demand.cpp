// SPDX-License-Identifier: GPL-3.0-or-later
// Rules about what was asked for.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "core/plan/checker_geometry.h"
#include "core/plan/checker_rules.h"

namespace rackside::checking {
namespace {

using Copy = std::pair<PartId, int>;

// Angle between two lines, 0 … π/2.
double betweenLines(double a, double b) {
  const double turn = std::remainder(a - b, std::numbers::pi);
  return std::abs(turn);
}

// Worth of the piece as a share of its part's value on plain wood.
double lookFactor(const Piece& piece, const Part& part) {
  return piece.worth / (part.value > 0 ? part.value : part.lengthMm * part.widthMm);
}

// Area of the board, and of what lies beyond its last crosscut when that is long enough to keep.
std::pair<double, double> stockOf(const Scene& s, const Board& board) {
  double last = -1e300;
  for (const Cut& cut : s.plan.cuts)
    if (cut.board == board.id && cut.kind == CutKind::crosscut)
      last = std::max({last, cut.line.from.x, cut.line.to.x});
  if (last < -1e299) return {0, 0};
  for (const Blank& blank : s.plan.blanks)
    if (blank.board == board.id) last = std::max(last, boxOf(blank.roughOutline()).x1);
  const Polygon outline = board.outline.polygon();
  const double beyond = last + s.request.shop.crosscutKerfMm;
  const bool useful = boxOf(outline).x1 - beyond >= s.request.shop.usefulOffcutLengthMm;
  const double rest = useful ? areaOf(leftOf(outline, {beyond, 1}, {beyond, 0})) : 0;
  return {areaOf(outline), rest};
}

// The terms are what they say, and add up to the value; without terms the parts' worth is all.
void checkScore(const Scene& s, double worth, const Report& report) {
  double parts = 0, sum = 0, stock = 0, offcuts = 0, slack = 1e-6 * std::max(1.0, worth);
  for (const Board& b : s.request.boards) {
    // Board foot: 144 in³. A board without a price counts as 1 a board foot.
    const double aFoot = b.pricePerBoardFoot > 0 ? b.pricePerBoardFoot : 1;
    const double price = aFoot * b.thicknessMm / (144 * 25.4 * 25.4 * 25.4);
    const auto [whole, rest] = stockOf(s, b);
    stock += whole * price, offcuts += rest * price;
  }
  for (const ScoreTerm& t : s.plan.score) {
    sum += t.value;
    if (t.name == "parts" || t.name == "looks") parts += t.value;
    if (std::abs(t.value - t.weight * t.amount) > slack)
      report("the term " + t.name + " is not its weight times its amount");
    if ((t.name == "stock" && std::abs(t.amount - stock) > 1e-6 * (1 + stock)) ||
        (t.name == "offcuts" && std::abs(t.amount - offcuts) > 1e-6 * (1 + stock)))
      report("the term " + t.name + " is not the price of that wood");
  }
  if (s.plan.score.empty()) parts = sum = worth;
  if (std::abs(parts - worth) > slack)
    report("the value of the parts is not the sum of the pieces' worth");
  if (std::abs(sum - s.plan.value) > slack) report("the plan's value is not the sum of its terms");
}

bool sameOutline(const Polygon& a, const Polygon& b) {
  if (a.size() != b.size()) return false;
  for (size_t i = 0; i < a.size(); ++i)
    if (norm(a[i] - b[i]) > kSameMm) return false;
  return true;
}

}  // namespace

void ruleCopies(const Scene& s, const Report& report) {
  std::set<Copy> seen;
  for (const Piece& piece : s.plan.pieces) {
    if (piece.kind != PieceKind::part) continue;
    if (piece.copy < 1 || piece.copy > s.partOf(piece).copies)
      report(nameOf(s, piece) + " is more than was asked for");
    if (!seen.insert({piece.part, piece.copy}).second)
      report(nameOf(s, piece) + " is placed twice");
  }
}

void ruleAccounted(const Scene& s, const Report& report) {
  std::multiset<Copy> all;
  for (const Unplaced& u : s.plan.unplaced) {
    all.insert({u.part, u.copy});
    if (u.why.empty()) report("a part was left out without a reason");
  }
  std::set<Copy> placed;
  for (const Piece& piece : s.plan.pieces) placed.insert({piece.part, piece.copy});
  all.insert(placed.begin(), placed.end());
  for (const Part& part : s.request.parts)
    for (int copy = 1; copy <= part.copies; ++copy)
      if (all.count({part.id, copy}) != 1)
        report(part.name + " " + std::to_string(copy) +
               " is neither placed nor said to be left out, or both");
}

void ruleSpecies(const Scene& s, const Report& report) {
  for (const Piece& piece : s.plan.pieces) {
    const std::string& want = s.partOf(piece).species;
    const std::string& is = s.boards.at(piece.board)->species;
    const auto& own = s.request.shop.ownSpecies;
    if (!want.empty() && woodKey(is, own) != woodKey(want, own))
      report(nameOf(s, piece) + " is of the wrong species");
  }
}

void ruleGrain(const Scene& s, const Report& report) {
  for (const Piece& piece : s.plan.pieces) {
    const Part& part = s.partOf(piece);
    const Blank& blank = *s.blanks.at(piece.blank);
    const double fromBlank = betweenLines(piece.angleRad, blank.boardFromBlank.angleRad);
    if (fromBlank > 1e-6 && std::abs(fromBlank - std::numbers::pi / 2) > 1e-6)
      report(nameOf(s, piece) + " lies askew in its blank");
    if (part.grain == GrainRule::along &&
        betweenLines(piece.angleRad, 0) > part.grainToleranceDeg * std::numbers::pi / 180 + 1e-6)
      report(nameOf(s, piece) + " runs across the grain");
  }
}

void rulePins(const Scene& s, const Report& report) {
  if (!s.request.current) return;
  for (const PieceId& id : s.request.pinned)
    for (const Piece& was : s.request.current->pieces) {
      if (was.id != id) continue;
      const auto stays = [&](const Piece& p) {
        return p.part == was.part && p.copy == was.copy && p.board == was.board &&
               p.showFace == was.showFace && sameOutline(p.outline, was.outline);
      };
      if (std::none_of(s.plan.pieces.begin(), s.plan.pieces.end(), stays))
        report("a pinned piece of " + was.part.text + " was moved");
    }
}

void ruleValue(const Scene& s, const Report& report) {
  double sum = 0;
  for (const Piece& piece : s.plan.pieces) {
    sum += piece.worth;
    const double factor = lookFactor(piece, s.partOf(piece));
    if (!(factor >= 0 && factor <= 2 + 1e-9))
      report(nameOf(s, piece) + " has a worth that no look can give it");
  }
  checkScore(s, sum, report);
  if (s.plan.bound < s.plan.value * (1 - 1e-9))
    report("the plan is worth more than its bound says any can be");
}

}  // namespace rackside::checking
