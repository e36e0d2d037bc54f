// SPDX-License-Identifier: GPL-3.0-or-later
// Strips beside pinned blanks, in the sections that cutting those free takes anyway.
#pragma once

#include "core/plan/pins.h"
#include "core/plan/search/section_filler.h"

namespace rackside {

// One a pinned section of the map's board, in their order; takes the copies off `left`.
std::vector<FilledSection> fillBesidePins(const BoardMap& map, const Job& job,
                                          const ValueMaps& worth, double lookWeight,
                                          const std::vector<PinnedSection>& pins,
                                          std::vector<int>& left);

}  // namespace rackside
