// SPDX-License-Identifier: GPL-3.0-or-later
// What must stay where it is: the blanks of pinned pieces, and the sections that cutting them free
// takes. Millimetres, board frame.
//
// A pinned blank need not lie on the planner's columns nor in one of its directions: it may have
// been dragged there by hand. Its section begins and ends where its rough outline does; blanks that
// overlap along the board share a section and have to share its direction.
#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/plan/planner.h"
#include "core/plan/tracks.h"

namespace rackside {

struct PinnedBlank {
  Blank blank;
  std::vector<Piece> pieces;
  double low = 0, high = 0;   // y' in the direction of its section
  double start = 0, end = 0;  // along the rip
};

struct PinnedSection {
  BoardId board;
  double angleRad = 0;
  double x0 = 0, x1 = 0;            // from crosscut to crosscut
  std::vector<PinnedBlank> blanks;  // ascending
  // y' that the strips of others must keep away from.
  Intervals taken() const;
};

// Of all pinned pieces, board by board and ascending along each; fails when two of them cannot be
// cut free together.
Result<std::vector<PinnedSection>> pinnedSections(const PlanRequest& request);

// Copies of each part that pins have placed already.
std::vector<int> pinnedCopies(const PlanRequest& request,
                              const std::vector<PinnedSection>& sections);

}  // namespace rackside
