// SPDX-License-Identifier: GPL-3.0-or-later
// A rack that a verb changes.
#pragma once

#include <memory>
#include <string>

#include "app/command/rack_access.h"
#include "core/document/edit.h"

namespace rackside::command {

// Does the edits as one step and stores what they touched; nothing is stored when one fails.
Status performAndStore(OpenedRack& open, std::unique_ptr<Edit> edit, const std::string& folder);

}  // namespace rackside::command
