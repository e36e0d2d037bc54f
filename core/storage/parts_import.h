// SPDX-License-Identifier: GPL-3.0-or-later
// A parts list from the bytes of a file, whatever it is.
#pragma once

#include <string_view>
#include <vector>

#include "core/base/length.h"
#include "core/base/result.h"
#include "core/job/part.h"

namespace rackside {

// JSON when it begins with `{` or `[` (the form of parts.json, or a bare list of its parts, where
// an id may be missing), else CSV as partsFromCsv reads it.
Result<std::vector<Part>> importParts(std::string_view bytes, UnitSystem bareUnit);

}  // namespace rackside
