// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/blank_kind.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/job/saw_rules.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

// Up to the next whole step.
double inSteps(double mm, double stepMm) {
  return stepMm > 0 ? stepMm * std::ceil(mm / stepMm - 1e-9) : mm;
}

BlankKind kindOf(const Part& part, int partIndex, const Shop& shop, const SawRules& rules,
                 int copies, bool turned, Face showFace, double dryingShare) {
  BlankKind k;
  k.part = partIndex;
  k.copies = copies;
  k.turned = turned;
  k.showFace = showFace;
  k.pieceLengthMm = turned ? part.widthMm : part.lengthMm;
  // Sizes on the wet board: what is left once it is dry is wanted.
  const double swollen = 1 / (1 - dryingShare);
  k.dryingShare = dryingShare;
  const double widthMm = turned ? part.lengthMm : part.widthMm;
  k.pieceWidthMm = widthMm * swollen;
  k.clearLengthMm = copies * k.pieceLengthMm + (copies - 1) * shop.crosscutKerfMm;
  k.roughLengthMm = inSteps(
      std::max(k.clearLengthMm + shop.lengthAllowanceMm + 2 * shop.snipeMm, shop.shortestSafeMm),
      rules.roughLengthStepMm);
  k.roughWidthMm =
      inSteps(std::max(widthMm + shop.widthAllowanceMm, shop.narrowestSafeMm) * swollen,
              rules.roughWidthStepMm);
  k.value = copies * baseValue(part);
  return k;
}

}  // namespace

double baseValue(const Part& part) {
  return part.value > 0 ? part.value : part.lengthMm * part.widthMm;
}

double pieceValue(const Plan& plan, const Part& part, const Piece& piece) {
  if (piece.kind == PieceKind::part) return baseValue(part);
  for (const PlannedPanel& panel : plan.panels)
    if (panel.part == piece.part && panel.copy == piece.copy && !panel.strips.empty())
      return baseValue(part) / static_cast<double>(panel.strips.size());
  return 0;
}

std::vector<BlankKind> blankKinds(const Part& part, int partIndex, const Shop& shop, int mostCopies,
                                  const std::vector<double>& dryingShares) {
  std::vector<BlankKind> kinds;
  const SawRules rules = sawRules(shop);
  const bool mayTurn = part.grain == GrainRule::free && part.lengthMm != part.widthMm;
  for (int copies = 1; copies <= std::min(part.copies, mostCopies); ++copies)
    for (const bool turned : {false, true}) {
      if (turned && !mayTurn) continue;
      for (const double share : dryingShares) {
        kinds.push_back(kindOf(part, partIndex, shop, rules, copies, turned, Face::A, share));
        if (part.showing == Showing::oneFace)
          kinds.push_back(kindOf(part, partIndex, shop, rules, copies, turned, Face::B, share));
      }
    }
  return kinds;
}

double grainToleranceRad(const Part& part) {
  if (part.grain == GrainRule::free) return std::numbers::pi;
  return part.grainToleranceDeg * std::numbers::pi / 180;
}

const FaceAllows& allowsOn(const Part& part, Face showFace, Face face) {
  switch (part.showing) {
    case Showing::none:
      return part.back;
    case Showing::bothFaces:
      return part.show;
    case Showing::oneFace:
      break;
  }
  return face == showFace ? part.show : part.back;
}

std::string unseenFaceReason(const Part& part, const Board& board, Face showFace) {
  if (part.showing == Showing::none) return {};
  for (const Face face : {Face::A, Face::B}) {
    const bool shows = part.showing == Showing::bothFaces || face == showFace;
    if (shows && !lookedAt(board, face))
      return "face " + std::string(name(face)) + " of board " + board.name +
             " was never photographed, so it cannot be taken for clear";
  }
  return {};
}

}  // namespace rackside
