// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/written_section.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

WrittenStrip writtenStrip(const BoardMap& map, const Job& job, double angleRad,
                          const StripLayout& strip) {
  const BlankKind& kind = job.kinds[strip.kind];
  const Footprint f = footprintOf(kind, grainToleranceRad(job.parts[kind.part]), angleRad,
                                  job.cellMm, job.shop.crosscutKerfMm, Reading::forPlans);
  WrittenStrip w;
  w.kind = strip.kind;
  w.low = strip.bottomMm;
  w.high = strip.bottomMm + kind.roughWidthMm;
  // Along the rip, u = x cos a + y sin a: where the blank's leftmost corner meets its column.
  const double sine = std::sin(angleRad);
  w.start =
      (map.columnX(strip.column) + std::max(w.low * sine, w.high * sine)) / std::cos(angleRad);
  w.end = w.start + f.roughLengthMm;
  return w;
}

}  // namespace

WrittenSection writtenSection(const BoardMap& map, const Job& job, const SectionLayout& section) {
  WrittenSection w{map.columnX(section.from),
                   map.columnX(section.to) - job.shop.crosscutKerfMm,
                   map.angleRad(section.direction),
                   {}};
  for (const StripLayout& strip : section.strips)
    w.strips.push_back(writtenStrip(map, job, w.angleRad, strip));
  return w;
}

WrittenSection writtenSection(const BoardMap& map, const Job& job, const PinnedSection& pinned,
                              const SectionLayout& more) {
  WrittenSection w{pinned.x0, pinned.x1, pinned.angleRad, {}};
  for (const PinnedBlank& b : pinned.blanks)
    w.strips.push_back({b.low, b.high, b.start, b.end, -1, &b});
  for (const StripLayout& strip : more.strips)
    w.strips.push_back(writtenStrip(map, job, w.angleRad, strip));
  std::sort(w.strips.begin(), w.strips.end(),
            [](const WrittenStrip& a, const WrittenStrip& b) { return a.low < b.low; });
  return w;
}

}  // namespace rackside
