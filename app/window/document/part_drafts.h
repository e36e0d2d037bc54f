// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the parts list that are not parts yet, or not for the moment: kept as typed in the parts'
// own file, under "unfinished_rows", so that they outlive the window. Nobody plans them.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/document/rack.h"

namespace rackside {

struct PartDraft {
  size_t row = 0;                            // its place among all rows of the list
  std::optional<Part> part;                  // what the row stood for before it was typed over
  std::map<std::string, std::string> typed;  // by the heading of its column (partsColumns())
};

// A draft that another program has spoilt is passed over.
std::vector<PartDraft> partDrafts(const Rack& rack);
// The parts' unknown keys with these drafts among them.
KeptKeys withPartDrafts(const Rack& rack, const std::vector<PartDraft>& drafts);

}  // namespace rackside
