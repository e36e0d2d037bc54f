// SPDX-License-Identifier: GPL-3.0-or-later
// A section as it will be cut, in millimetres: what the writer makes cuts, blanks and pieces of,
// whether it was planned on columns or pinned by hand.
#pragma once

#include <vector>

#include "core/plan/layout.h"
#include "core/plan/pins.h"

namespace rackside {

struct WrittenBlank {
  double start = 0, end = 0;            // along the rip
  double widthMm = 0;                   // from the low edge of its strip
  int kind = -1;                        // of a planned one
  const PinnedBlank* pinned = nullptr;  // or of a pinned one
};

// Blanks end to end between two rips.
struct WrittenStrip {
  double low = 0, high = 0;  // y'
  std::vector<WrittenBlank> blanks;
};

struct WrittenSection {
  double x0 = 0, x1 = 0;  // from crosscut to crosscut
  double angleRad = 0;
  std::vector<WrittenStrip> strips;  // ascending
};

WrittenSection writtenSection(const BoardMap& map, const Job& job, const SectionLayout& section);
// One of these kinds whose low edge lies at `lowMm` and which starts in a column.
WrittenBlank writtenBlank(const BoardMap& map, const Job& job, double angleRad, int kind,
                          int column, double lowMm);
// `more`: strips laid beside the pinned ones.
WrittenSection writtenSection(const BoardMap& map, const Job& job, const PinnedSection& pinned,
                              const SectionLayout& more);

}  // namespace rackside
