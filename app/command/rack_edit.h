// SPDX-License-Identifier: GPL-3.0-or-later
// A rack that a verb changes.
#pragma once

#include <memory>
#include <string>

#include "core/document/edit.h"
#include "core/document/rack.h"
#include "core/storage/rack_folder.h"

namespace rackside::command {

struct OpenRack {
  Rack rack;
  RackSnapshot snapshot;
};

// Does the edits as one step and stores what they touched; nothing is stored when one fails.
Status performAndStore(OpenRack& open, std::unique_ptr<Edit> edit, const std::string& folder);

}  // namespace rackside::command
