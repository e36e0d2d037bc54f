// SPDX-License-Identifier: GPL-3.0-or-later
// A plan: which piece comes from where, and the cuts that free it, in working order.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/base/kept_keys.h"
#include "core/geometry/polygon.h"
#include "core/wood/board.h"

namespace rackside {

// A rough rectangle that is milled as one and parted afterwards: one part, or several with a kerf
// between, end to end, or side by side when they are narrow; of several parts when each is too
// small to be machined alone. Allowance is added once, round the blank.
struct Blank {
  BlankId id;
  BoardId board;
  Pose boardFromBlank;  // blank frame: x along its length, origin at its lower left corner
  double roughLengthMm = 0;
  double roughWidthMm = 0;
  double finishedThicknessMm = 0;
  double takeOffAMm = 0;  // from each face when milled
  double takeOffBMm = 0;
  CutId lastCut;  // the cut after which it is free
  // What the maker should know before milling: wider than the jointer, dear thickness, …
  std::vector<std::string> remarks;
  KeptKeys extra;
  Polygon roughOutline() const;  // board frame
};

enum class PieceKind { part, panelStrip };

struct Piece {
  PieceId id;
  PieceKind kind = PieceKind::part;
  PartId part;
  int copy = 1;   // 1-based
  int strip = 0;  // 1-based for a panel strip
  BlankId blank;
  BoardId board;
  Face showFace = Face::A;
  Polygon outline;      // finished outline, board frame
  double lengthMm = 0;  // finished
  double widthMm = 0;
  double angleRad = 0;
  double worth = 0;  // its share of the plan's value
  KeptKeys extra;
};

enum class CutKind { crosscut, rip, trim, curve };
std::string_view name(CutKind kind);

// A straight cut from border to border of the region it divides. Going from line.from to line.to,
// the line is the border of the wood kept on its left (`left` child) and the kerf lies to its
// right, so the right child begins kerfMm to the right of the line.
struct Cut {
  CutId id;
  BoardId board;
  int order = 0;  // 1-based on its board: the order to work in
  CutKind kind = CutKind::crosscut;
  Segment line;  // board frame; of a cut that was made: where the saw really went
  double kerfMm = 0;
  bool made = false;               // ticked at the bench: it cannot be planned away
  std::optional<Segment> planned;  // where a miscut was meant to go
  // The region it divides: the whole board (no parent), or the left or right child of an earlier
  // cut.
  std::optional<CutId> parent;
  bool leftOfParent = true;
  bool firstRip = false;  // a line laid on the wood, not a fence cut
  // Of a first rip: how far in from the section's near edge (least y) the line starts and ends.
  double offsetAtFromMm = 0;
  double offsetAtToMm = 0;
  bool wasteIsLeft = false;
  bool wasteIsRight = false;
  std::string label;
  KeptKeys extra;
};

struct Unplaced {
  PartId part;
  int copy = 1;
  std::string why;
  struct Nearest {
    BoardId board;
    double shortByMm = 0;
    std::string direction;  // "length", "width", "thickness"
  };
  std::optional<Nearest> nearest;
  // What would make it fit, each tried on the board with that one rule relaxed.
  struct Remedy {
    std::string rule;  // "glue-up", "allowance", "sound-knot", "sapwood", …
    BoardId board;
    double byMm = 0;  // how far the rule gives way; 0 where it is no length
    std::string words;
  };
  std::vector<Remedy> remedies;
  KeptKeys extra;
};

// Wood that could take a show part should its piece fail.
struct Spare {
  PieceId piece;
  std::optional<BoardId> board;  // none: nothing that is left would hold it
  Rect place;                    // its rough box there, board frame
  bool wholeBoard = false;       // nothing is planned on that board
  KeptKeys extra;
};

// A term of the plan's value: weight · amount.
struct ScoreTerm {
  std::string name;
  double weight = 0;
  double amount = 0;
  double value = 0;
  std::string words;
};

// How the strips of a panel lie side by side as it will be seen, from its near edge.
struct PlannedPanel {
  PartId part;
  int copy = 1;
  double glueLineMm = 0;            // taken from each glued edge
  std::vector<PieceId> strips;      // in show order
  std::vector<PieceId> turned;      // those of them that lie end for end, left for right
  std::vector<int> subPanelStarts;  // index of the first strip of each glue-up the planer takes
  std::vector<std::string> remarks;
  KeptKeys extra;
};

struct Plan {
  std::vector<Blank> blanks;
  std::vector<Piece> pieces;
  std::vector<Cut> cuts;
  std::vector<Unplaced> unplaced;
  std::vector<Spare> spares;     // one for each piece that shows
  std::vector<ScoreTerm> score;  // adds up to `value`
  std::vector<PlannedPanel> panels;
  double value = 0;       // the sum of the pieces' worth
  double bound = 0;       // no plan of these cuts on these boards is worth more
  double gridBound = 0;   // the same for plans on the planner's own columns; not stored
  double stockMm2 = 0;    // wood used: board area cut into, less offcuts of a useful length
  double stockBound = 0;  // least stock only: no plan that places as much uses less
  std::vector<std::string> remarks;  // about the whole: an unseen face, a board set aside, …
  std::string stopped;               // why the search ended, in plain words
  double seconds = 0;
  unsigned long long seed = 0;
  KeptKeys extra;

  // Of the value; share of the bound.
  double gap() const { return bound > 0 ? (bound - value) / bound : 0; }
};

}  // namespace rackside
