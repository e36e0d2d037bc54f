// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/rack_edit.h"

#include "core/document/edits.h"

namespace rackside::command {

Status performAndStore(OpenedRack& open, std::unique_ptr<Edit> edit, const std::string& folder) {
  History history;
  auto events = history.perform(open.rack, std::move(edit));
  if (!events) return events.error();
  return storeRack(open, folder);
}

}  // namespace rackside::command
