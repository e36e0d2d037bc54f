// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/written_section.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

WrittenStrip writtenStrip(const BoardMap& map, const Job& job, double angleRad,
                          const StripLayout& strip) {
  const WrittenBlank blank =
      writtenBlank(map, job, angleRad, strip.kind, strip.column, strip.bottomMm);
  return {strip.bottomMm, strip.bottomMm + blank.widthMm, {blank}};
}

}  // namespace

WrittenBlank writtenBlank(const BoardMap& map, const Job& job, double angleRad, int kind,
                          int column, double lowMm) {
  const BlankKind& k = job.kinds[kind];
  const Footprint f = footprintOf(k, grainToleranceRad(job.parts[k.part]), angleRad, job.cellMm,
                                  job.shop.crosscutKerfMm, Reading::forPlans);
  WrittenBlank w;
  w.kind = kind;
  w.widthMm = k.roughWidthMm;
  // Along the rip, u = x cos a + y sin a: where the blank's leftmost corner meets its column.
  const double sine = std::sin(angleRad);
  w.start = (map.columnX(column) + std::max(lowMm * sine, (lowMm + w.widthMm) * sine)) /
            std::cos(angleRad);
  w.end = w.start + f.roughLengthMm;
  return w;
}

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
    w.strips.push_back({b.low, b.high, {{b.start, b.end, b.high - b.low, -1, &b}}});
  for (const StripLayout& strip : more.strips)
    w.strips.push_back(writtenStrip(map, job, w.angleRad, strip));
  std::sort(w.strips.begin(), w.strips.end(),
            [](const WrittenStrip& a, const WrittenStrip& b) { return a.low < b.low; });
  return w;
}

}  // namespace rackside
