// SPDX-License-Identifier: GPL-3.0-or-later
// A rack on disk: a plain folder a person can copy, sync or put under version control.
//
//   RACK/parts.json  RACK/shop.json  RACK/plan.json  RACK/boards/<board id>/board.json + pictures
//
// Every file carries "format", "version" and units in its key names, and has a JSON Schema in
// core/storage/schemas. Unknown keys survive. Writes are atomic (written aside, synced, renamed).
// An older version is migrated, a newer one refused.
#pragma once

#include <filesystem>

#include "core/base/result.h"
#include "core/document/rack.h"

namespace rackside {

// A folder without rack files is an empty rack; a folder that does not exist is an error.
Result<Rack> loadRack(const std::filesystem::path& folder);
// Writes only what differs from the files there. Creates the folder when needed.
Status saveRack(const Rack& rack, const std::filesystem::path& folder);
Status saveBoard(const Board& board, const std::filesystem::path& rackFolder);
Status saveParts(const Rack& rack, const std::filesystem::path& rackFolder);
Status saveShop(const Shop& shop, const std::filesystem::path& rackFolder);
Status savePlan(const std::optional<Plan>& plan, const std::filesystem::path& rackFolder);
std::filesystem::path boardFolder(const std::filesystem::path& rackFolder, const BoardId& board);

}  // namespace rackside
