// SPDX-License-Identifier: GPL-3.0-or-later
// Rules about sizes: of pieces, of their blanks, of what milling takes and machines hold.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/plan/checker_geometry.h"
#include "core/plan/checker_rules.h"
#include "core/wood/species.h"

namespace rackside::checking {
namespace {

Box spanInBlank(const Scene& s, const Blank& blank) {
  Box span;
  for (const Piece* piece : s.piecesOf.at(blank.id)) {
    const Box b = inBlank(blank, *piece);
    span = {std::min(span.x0, b.x0), std::min(span.y0, b.y0), std::max(span.x1, b.x1),
            std::max(span.y1, b.y1)};
  }
  return span;
}

// Is there a straight cut from border to border between some and the rest, and so on?
bool canBeParted(const std::vector<Box>& boxes, const Shop& shop) {
  if (boxes.size() < 2) return true;
  for (const bool across : {true, false})
    for (const Box& edge : boxes) {
      const double at = across ? edge.x1 : edge.y1;
      const double beyond = at + (across ? shop.crosscutKerfMm : shop.ripKerfMm) - kSameMm;
      std::vector<Box> before, after;
      for (const Box& b : boxes) {
        if ((across ? b.x1 : b.y1) <= at + 1e-9) before.push_back(b);
        if ((across ? b.x0 : b.y0) >= beyond) after.push_back(b);
      }
      if (!after.empty() && before.size() + after.size() == boxes.size())
        return canBeParted(before, shop) && canBeParted(after, shop);
    }
  return false;
}

// Wood Handbook eq. 13-2: a size D loses D·C·(M₁ − M₂); the thickness by the other coefficient than
// the width. A reading counts in half percents, up; above 30 % no wood shrinks.
double lossShare(const Board& board, const Shop& shop, bool thickness) {
  if (board.moisture.empty()) return 0;
  const Species* wood = speciesNamed(board.species, shop.ownSpecies);
  double wet = std::ceil(2 * board.moisture.back().percent - 1e-9) / 2;
  if (wet > 30) wet = 30;
  if (!wood || wet < shop.shopMoisturePercent) return 0;
  const ChangeCoefficients change = changeOf(*wood);
  if (!change.radial || !change.tangential) return 0;
  const double radial = change.radial->value, tangential = change.tangential->value;
  double c = tangential;
  if (board.sawn == Sawn::rift) c = 0.5 * (radial + tangential);
  if (board.sawn == (thickness ? Sawn::flat : Sawn::quarter)) c = radial;
  return c * (wet - shop.shopMoisturePercent);
}

}  // namespace

Dried driedShares(const Board& board, const Shop& shop) {
  return {1 - lossShare(board, shop, false), 1 - lossShare(board, shop, true)};
}

void ruleOverlap(const Scene& s, const Report& report) {
  const auto& blanks = s.plan.blanks;
  std::vector<Polygon> rough;
  rough.reserve(blanks.size());
  for (const Blank& b : blanks) rough.push_back(b.roughOutline());
  for (size_t i = 0; i < blanks.size(); ++i)
    for (size_t j = i + 1; j < blanks.size(); ++j)
      if (blanks[i].board == blanks[j].board && overlapArea(rough[i], rough[j]) > 1)
        report(nameOf(s, blanks[i]) + " and " + nameOf(s, blanks[j]) + " take the same wood");
}

void rulePieceSize(const Scene& s, const Report& report) {
  for (const Piece& piece : s.plan.pieces) {
    const Part& part = s.partOf(piece);
    const Box box = boxOf(turnedBack(piece.outline, piece.angleRad));
    // How wide a panel's strips are together is the rule about panels' to say.
    const bool strip = piece.kind == PieceKind::panelStrip;
    const double width = strip ? piece.widthMm : part.widthMm;
    const double wantedArea = part.outline ? areaOf(*part.outline) : part.lengthMm * width;
    const Box want = part.outline ? boxOf(*part.outline) : Box{0, 0, part.lengthMm, width};
    if (std::abs(box.x1 - box.x0 - (want.x1 - want.x0)) > kSameMm ||
        std::abs(box.y1 - box.y0 - (want.y1 - want.y0)) > kSameMm ||
        std::abs(areaOf(piece.outline) - wantedArea) > kSameMm * (part.lengthMm + part.widthMm) ||
        std::abs(piece.lengthMm - part.lengthMm) > kSameMm ||
        std::abs(piece.widthMm - width) > kSameMm)
      report(nameOf(s, piece) + " does not have the size of its part");
    if (std::abs(s.blanks.at(piece.blank)->finishedThicknessMm - part.thicknessMm) > kSameMm)
      report(nameOf(s, piece) + " is milled to another thickness than its part's");
  }
}

void rulePieceInBlank(const Scene& s, const Report& report) {
  for (const Piece& piece : s.plan.pieces) {
    const Blank& blank = *s.blanks.at(piece.blank);
    const Box b = inBlank(blank, piece);
    if (b.x0 < -kSameMm || b.y0 < -kSameMm || b.x1 > blank.roughLengthMm + kSameMm ||
        b.y1 > blank.roughWidthMm + kSameMm)
      report(nameOf(s, piece) + " reaches out of its blank");
  }
}

void ruleParting(const Scene& s, const Report& report) {
  for (const auto& [id, pieces] : s.piecesOf) {
    const Blank& blank = *s.blanks.at(id);
    std::vector<Box> boxes;
    boxes.reserve(pieces.size());
    for (const Piece* piece : pieces) boxes.push_back(inBlank(blank, *piece));
    if (!canBeParted(boxes, s.request.shop))
      report("the pieces of " + nameOf(s, blank) + " cannot be parted with a saw");
  }
}

void ruleAllowance(const Scene& s, const Report& report) {
  const Shop& shop = s.request.shop;
  for (const Blank& blank : s.plan.blanks) {
    const Box span = spanInBlank(s, blank);
    if (blank.roughLengthMm <
        span.x1 - span.x0 + shop.lengthAllowanceMm + 2 * shop.snipeMm - kSameMm)
      report(nameOf(s, blank) + " leaves too little length to mill it");
    const double dried = driedShares(s.boardOf(blank), shop).width * blank.roughWidthMm;
    if (dried < span.y1 - span.y0 + shop.widthAllowanceMm - kSameMm)
      report(nameOf(s, blank) + " leaves too little width to mill it" +
             (dried < blank.roughWidthMm ? " once it is dry" : ""));
  }
}

void ruleThickness(const Scene& s, const Report& report) {
  for (const Blank& blank : s.plan.blanks) {
    const Board& board = s.boardOf(blank);
    const Box box = boxOf(board.outline.polygon());
    const double l = blank.roughLengthMm / (box.x1 - box.x0);
    const double w = blank.roughWidthMm / (box.y1 - box.y0);
    // A sagitta goes with the square of the chord; a corner's deviation with length times width,
    // half of it when it is shared between the corners.
    const double hills = board.bowMm * l * l + board.cupMm * w * w + board.twistMm * l * w / 2;
    const double dry = board.thicknessMm * driedShares(board, s.request.shop).thickness;
    const double left = dry - hills - 2 * s.request.shop.minTakeOffMm;
    if (left < blank.finishedThicknessMm - 1e-3)
      report(nameOf(s, blank) + " cannot be milled to its thickness");
    if (blank.takeOffAMm < s.request.shop.minTakeOffMm - 1e-3 ||
        blank.takeOffBMm < s.request.shop.minTakeOffMm - 1e-3 ||
        std::abs(dry - blank.takeOffAMm - blank.takeOffBMm - blank.finishedThicknessMm) > kSameMm)
      report(nameOf(s, blank) + " has take-offs that do not add up");
  }
}

void ruleSafeSize(const Scene& s, const Report& report) {
  for (const Blank& blank : s.plan.blanks) {
    if (blank.roughLengthMm < s.request.shop.shortestSafeMm - kSameMm)
      report(nameOf(s, blank) + " is too short to be machined safely: the machine's manual rules");
    const double dried = driedShares(s.boardOf(blank), s.request.shop).width;
    if (dried * blank.roughWidthMm < s.request.shop.narrowestSafeMm - kSameMm)
      report(nameOf(s, blank) + " is too narrow to be machined safely: the machine's manual rules");
  }
}

}  // namespace rackside::checking
