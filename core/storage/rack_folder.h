// SPDX-License-Identifier: GPL-3.0-or-later
// A rack on disk: a plain folder a person can copy, sync or put under version control.
//
//   RACK/parts.json  RACK/shop.json  RACK/plan.json  RACK/boards/<board id>/board.json + pictures
//
// Every file carries "format", "version" and units in its key names, and has a JSON Schema in
// core/storage/schemas. Unknown keys survive. Writes are atomic (written aside, synced, renamed).
// An older version is migrated, a newer one refused. Nothing is written that could not be read
// back.
#pragma once

#include <filesystem>
#include <map>
#include <string>

#include "core/base/result.h"
#include "core/document/rack.h"

namespace rackside {

// What the files held when they were last read or written here, by their place in the rack. With
// it a save writes only what changed since, refuses to write over what another program changed
// meanwhile, and knows which boards were taken away.
struct RackSnapshot {
  std::map<std::string, std::string> bytes;
};

// A folder without rack files is an empty rack; a folder that does not exist is an error. Boards
// come in the order of their tags, then names.
Result<Rack> loadRack(const std::filesystem::path& folder, RackSnapshot* snapshot = nullptr);

// Writes only what differs from the files there. Creates the folder when needed. With a snapshot a
// board of the snapshot that the rack no longer has is moved, pictures and all, to
// RACK/removed/<board id>, and comes back from there when the rack has it again; a refused save
// changes nothing. Without one, boards on disk that the rack does not have are left alone.
Status saveRack(const Rack& rack, const std::filesystem::path& folder,
                RackSnapshot* snapshot = nullptr);

// One document, whatever is there now.
Status saveBoard(const Board& board, const std::filesystem::path& rackFolder);
Status saveParts(const Rack& rack, const std::filesystem::path& rackFolder);
Status saveShop(const Shop& shop, const std::filesystem::path& rackFolder);
Status savePlan(const std::optional<Plan>& plan, const std::filesystem::path& rackFolder);
std::filesystem::path boardFolder(const std::filesystem::path& rackFolder, const BoardId& board);
// The file of a board's picture, which an offcut shares with the board it came from, even when that
// one has been taken away from the rack.
std::filesystem::path pictureFile(const std::filesystem::path& rackFolder, const Board& board,
                                  const Picture& picture);

}  // namespace rackside
