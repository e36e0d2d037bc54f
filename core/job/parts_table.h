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

// Header row of column names in any order: name, copies, length, width, thickness, and optionally
// grain, shows, sapwood, sound knots, filled holes, look, species, glue up, match, note. Lengths as
// parseLengthMm reads them; separators `,` `;` or tab, quotes as in RFC 4180. An error names the
// row and the column.
Result<std::vector<Part>> partsFromCsv(std::string_view csv, UnitSystem bareUnit);
std::string partsToCsv(const std::vector<Part>& parts, const LengthStyle& style);

}  // namespace rackside
