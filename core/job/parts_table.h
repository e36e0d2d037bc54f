// SPDX-License-Identifier: GPL-3.0-or-later
// A parts list as a table: CSV in and out.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/length.h"
#include "core/base/result.h"
#include "core/job/part.h"

namespace rackside {

// Header row of column names in any order and spelling: name, copies, length, width, thickness, and
// optionally grain, grain tolerance, shows, sapwood, sound knots, filled holes, stain, the last
// four again with `back ` before them (without them the back may hold what the front may), look,
// species, glue up, least strip, greatest strip, match, value, note, id. A unit in a heading,
// `length (mm)` or `width in`, goes before `bareUnit` for its column. Lengths as parseLengthMm
// reads them; separators `,` `;` or tab, quotes as in RFC 4180. An error names the row (the line of
// the file), the column and what to type. A part without an id gets a new one.
Result<std::vector<Part>> partsFromCsv(std::string_view csv, UnitSystem bareUnit);

// Everything but a part's outline and its unknown keys; lengths are rounded to the style.
std::string partsToCsv(const std::vector<Part>& parts, const LengthStyle& style);

}  // namespace rackside
