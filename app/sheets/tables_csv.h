// SPDX-License-Identifier: GPL-3.0-or-later
// The rack and its plan as tables for a spreadsheet. Lengths in millimetres, said in the headings.
#pragma once

#include <map>
#include <string>

#include "core/document/rack.h"

namespace rackside::sheets {

// By file name: boards.csv, marks.csv, parts.csv, tally.csv, and with a plan pieces.csv, cuts.csv,
// unplaced.csv, fills.csv.
std::map<std::string, std::string> csvTables(const Rack& rack);

}  // namespace rackside::sheets
