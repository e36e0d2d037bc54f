// SPDX-License-Identifier: GPL-3.0-or-later
// A layout made on wide columns, on columns that are a whole number of times narrower.
#pragma once

#include "core/plan/layout.h"

namespace rackside {

// A blank is no longer than its columns ask for, so on narrower ones it is shorter and its pieces
// lie nearer its start: each is moved within its section to where it may lie, nearest first. `map`
// and `job` are those of the narrow columns. False when a strip finds no such place.
bool toFiner(SectionLayout& section, int times, const BoardMap& map, const Job& job);

}  // namespace rackside
