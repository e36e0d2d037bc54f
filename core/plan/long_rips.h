// SPDX-License-Identifier: GPL-3.0-or-later
// Rip first, or crosscut first: sections of a board that lie one after another are joined to one,
// ripped along their whole length and cut to blanks afterwards, where the wood lets their blanks
// share straight edges and that saves more time at the saw than it costs in looks. Each choice of
// sections to join is weighed; the best is exact for the blanks and columns at hand. A strip is as
// wide as the widest blank in it, which the narrower ones keep until their final rip.
#pragma once

#include "core/plan/written_section.h"

namespace rackside {

struct LongRips {
  const ValueMaps& worth;
  double lookWeight = 0;
  double cutWorth = 0;  // the looks that a cut saved may cost
};

std::vector<WrittenSection> withLongRips(const BoardMap& map, const Job& job,
                                         const BoardLayout& layout, const LongRips& counts);

}  // namespace rackside
