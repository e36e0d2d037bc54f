// SPDX-License-Identifier: GPL-3.0-or-later
// From the rough blank to the finished part: the steps, what each takes, what is left.
//
// All of this is common practice, no source; the machine's manual rules. Hands stay 150 mm (6 in)
// from a blade, an inch and a half is far too close.
#pragma once

#include <string>
#include <vector>

#include "core/job/part.h"
#include "core/job/shop.h"
#include "core/plan/plan.h"

namespace rackside {

enum class MillingStepKind {
  roughCut,   // out of the board, label on the end
  dry,        // wetter than the shop: it shrinks first
  gang,       // kept joined to another piece until it is safe to part
  face,       // one face flat, on the jointer
  sledFace,   // one face flat, on the planer over a sled
  byHand,     // wider than the machines: hand plane, halves, or someone else's machine
  edge,       // one edge true and square
  turn,       // the sledded face down, the other made parallel
  thickness,  // parallel, a little over size
  rest,       // the wood moves once it is opened
  final,      // second milling: true again, to thickness
  rip,        // to width
  square,     // legs: by turns from all four sides
  relabel,    // the end with the label is about to go
  length,     // to length, pieces parted
  taper,
};

struct MillingSize {
  double lengthMm = 0, widthMm = 0, thicknessMm = 0;
};

struct MillingStep {
  MillingStepKind kind = MillingStepKind::roughCut;
  std::string what;     // in words for the bench
  std::string caution;  // empty when there is none of its own
  MillingSize after;    // the blank, or each piece once it is parted
};

struct MillingRoute {
  BlankId blank;
  MillingSize rough;
  std::vector<MillingStep> steps;
};

// `pieces` are those of the blank, `parts` hold theirs; fails when one is missing, or when the
// blank is smaller than what has to come out of it.
Result<MillingRoute> millingRoute(const Board& board, const Blank& blank,
                                  const std::vector<Piece>& pieces, const std::vector<Part>& parts,
                                  const Shop& shop);

}  // namespace rackside
