// SPDX-License-Identifier: GPL-3.0-or-later
// What boards, parts and pieces are called on the command line; the id where the thing is gone.
#pragma once

#include <string>

#include "core/document/rack.h"

namespace rackside::command {

std::string boardName(const Rack& rack, const BoardId& id);
std::string partName(const Rack& rack, const PartId& id);
std::string pieceName(const Rack& rack, const Piece& piece);  // "Door rail 2", "Top 1 strip 3"

}  // namespace rackside::command
