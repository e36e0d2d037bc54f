// SPDX-License-Identifier: GPL-3.0-or-later
// What a parts list may hold, on reading and on writing.
#pragma once

#include <vector>

#include "core/job/part.h"

namespace rackside {

// Each part holds, no id is there twice, and the list is no longer than can be planned.
Status validate(const std::vector<Part>& parts);

}  // namespace rackside
