// SPDX-License-Identifier: GPL-3.0-or-later
// How much filler a plan takes: every hole, check, split and bark pocket that still shows in a part
// once the blank has been milled.
#pragma once

#include <string>
#include <vector>

#include "core/document/rack.h"
#include "core/job/filler.h"

namespace rackside {

struct FillSpot {
  MarkId mark;
  BoardId board;
  PieceId piece;
  PartId part;
  int copy = 1;
  Face face = Face::A;
  MarkKind kind = MarkKind::holeToFill;
  Polygons area;             // inside the piece, board frame, as dug out
  double takeOffHereMm = 0;  // gone from this face at this spot
  double depthMm = 0;        // what is left of it
  double widthMm = 0;        // across its mouth at the widest place
  Measured volumeMl;  // u95: its depth, its border and an unsaid profile; no card scale in it
  bool depthUnknown = false;  // nothing is counted: measure it
  bool needsDam = false;      // open on the far side
  bool dugOut = false;
  bool drop = false;             // so small that a drop of thin glue fills it: nothing is mixed
  std::optional<size_t> filler;  // index into FillHabits::fillers; none suits it
  int pours = 0;
};

struct FillerNeed {
  size_t filler = 0;
  double volumeMl = 0;  // in the holes
  double mixedMl = 0;   // with the loss, no batch smaller than can be mixed
  double massG = 0;     // of what is mixed
  int pours = 0;        // rounds of pouring; the holes of one face are poured together
  int cups = 0;         // batches to mix, none greater than the filler's greatest
  bool turned = false;  // holes on both faces: the work is turned between the rounds
  double hours = 0;     // until the next step
};

struct FillList {
  std::vector<FillSpot> spots;
  std::vector<FillerNeed> needs;
  int drops = 0;  // spots for a drop of thin glue
};

// Holes, checks, splits, bark pockets, old worm holes and loose knots. Spots whose hollow vanishes
// in milling are not listed.
FillList fillList(const Rack& rack, const Plan& plan, const FillHabits& habits);

}  // namespace rackside
