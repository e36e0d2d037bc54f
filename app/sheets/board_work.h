// SPDX-License-Identifier: GPL-3.0-or-later
// The work on one board as a maker does it: cuts in order, each with what it is measured from, and
// what it frees; the waste; the offcuts worth keeping. All from the plan's geometry; no painting.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/document/rack.h"

namespace rackside::sheets {

struct PieceLine {
  std::string code;  // A, B, … along the board: short enough for any piece's picture
  const Piece* piece = nullptr;
  const Blank* blank = nullptr;  // may be null in a damaged plan
  const Part* part = nullptr;    // likewise
  std::string title() const;     // "Leg front 2", "Top 1 strip 3"
};

// A length of the board between crosscuts of its full width, numbered from the fresh end.
struct Section {
  int number = 0;
  double x0 = 0, x1 = 0;
};

struct CutStep {
  const Cut* cut = nullptr;
  bool crosswise = true;
  int section = 0;                  // 0: the whole board
  std::optional<double> runningMm;  // of a crosscut of the whole width: from the fresh end
  std::string what;                 // "Crosscut", "Rip", …
  std::string where;                // with figures, in words
  std::vector<std::string> freed;   // codes of the pieces it frees
};

struct BoardWork {
  bool freshIsLeft = true;
  double freshXMm = 0;  // where the fresh end is; the rough left end when nothing is trimmed
  const Cut* freshCut = nullptr;  // the trim that makes the fresh end; null: none is made
  std::vector<Section> sections;
  std::vector<CutStep> steps;  // in working order
  std::vector<PieceLine> pieces;
  Polygons waste;    // neither a blank nor worth keeping
  Polygons offcuts;  // outlines of those worth keeping
};

BoardWork boardWork(const Rack& rack, const Board& board, const LengthStyle& style);

}  // namespace rackside::sheets
