// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/finer_columns.h"

#include <algorithm>

namespace rackside {
namespace {

constexpr double kSameMm = 1e-3;  // places are kept as floats while they are looked for

bool mayLie(const StripLayout& strip, int column, int direction, const Footprint& f,
            const BoardMap& map) {
  const Intervals bottoms = map.bottoms(strip.kind, direction, column, f);
  return std::any_of(bottoms.begin(), bottoms.end(), [&](const Interval& i) {
    return i.lo - kSameMm <= strip.bottomMm && strip.bottomMm <= i.hi + kSameMm;
  });
}

}  // namespace

bool toFiner(SectionLayout& s, int times, const BoardMap& map, const Job& job) {
  s.from *= times;
  s.to *= times;
  for (StripLayout& strip : s.strips) {
    const BlankKind& kind = job.kinds[strip.kind];
    const Footprint f =
        footprintOf(kind, grainToleranceRad(job.parts[kind.part]), map.angleRad(s.direction),
                    job.cellMm, job.shop.crosscutKerfMm, Reading::forPlans);
    const int start = strip.column * times, last = s.to - f.steps;
    bool found = false;
    for (int away = 0; !found && away <= last - s.from; ++away)
      for (const int column : {start + away, start - away}) {
        if (found || column < s.from || column > last) continue;
        if (!mayLie(strip, column, s.direction, f, map)) continue;
        strip.column = column;
        found = true;
      }
    if (!found) return false;
  }
  return true;
}

}  // namespace rackside
