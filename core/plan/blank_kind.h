// SPDX-License-Identifier: GPL-3.0-or-later
// The blanks a planner may cut: one part, or several copies end to end, milled as one and parted
// afterwards.
#pragma once

#include <vector>

#include "core/job/part.h"
#include "core/job/shop.h"
#include "core/plan/planner.h"

namespace rackside {

// Lengths along the rip, widths across it, mm.
struct BlankKind {
  int part = 0;  // index in the request
  int copies = 1;
  bool turned = false;  // a part of free grain lying across
  Face showFace = Face::A;
  // One finished copy as it lies; across the grain with what drying takes of it.
  double pieceLengthMm = 0, pieceWidthMm = 0;
  double dryingShare = 0;    // only for boards that lose this share of a width (core/plan/drying.h)
  double clearLengthMm = 0;  // from the first copy to the last, cuts included
  double roughLengthMm = 0, roughWidthMm = 0;  // least; a blank may be longer
  double value = 0;                            // of all copies on plain wood
};

// What is milled in one pass and parted afterwards, at most. (The planner, its bound and the
// checker keep to it; how long a blank a machine takes is for its manual to say.)
inline constexpr int kMostCopiesInBlank = 24;

double baseValue(const Part& part);  // of one copy
// Of one piece on plain wood: of a panel's strip its share.
double pieceValue(const Plan& plan, const Part& part, const Piece& piece);

// All kinds for one part, single copies first, for boards that lose one of `dryingShares` of their
// width before they are milled.
std::vector<BlankKind> blankKinds(const Part& part, int partIndex, const Shop& shop, int mostCopies,
                                  const std::vector<double>& dryingShares = {0});

// The angle from the board's axis up to which a part's grain may run, in radians; free grain: any.
double grainToleranceRad(const Part& part);

// What each face of a part may hold when `show` lies on showFace.
const FaceAllows& allowsOn(const Part& part, Face showFace, Face face);

// Why this board's faces cannot serve for the part showing on `showFace`; empty when they can.
std::string unseenFaceReason(const Part& part, const Board& board, Face showFace);

}  // namespace rackside
