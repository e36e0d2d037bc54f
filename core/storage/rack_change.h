// SPDX-License-Identifier: GPL-3.0-or-later
// One action of the maker as one change of a rack's files: all of it or nothing, whenever the
// program is killed, the machine stops or the disk is full.
//
// What is to be written is written aside first (RACK/.rackside.change/0, 1, …) and synced; then the
// list of moves, writes and removals (journal.json there) is put in its place: from that moment
// on the change counts. Then it is carried out, and the folder goes. A change without a list is
// undone at the next open by taking the folder away; one with a list is carried out to its end, of
// which every step can be repeated.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/base/result.h"

namespace rackside {

// By places in the rack's folder, such as "boards/<id>/board.json". Moves come first
// (whatever is at the new place is replaced), then writes, then removals.
struct RackChange {
  std::vector<std::pair<std::string, std::string>> move;
  std::map<std::string, std::string> write;
  std::vector<std::string> remove;
  bool empty() const { return move.empty() && write.empty() && remove.empty(); }
};

// For whoever holds the rack's lock for a change. On failure before the change counts nothing was
// changed; after it, the message says that the next open finishes it.
Status carryOut(const RackChange& change, const std::filesystem::path& rack);

// Is there a change that was not carried out to its end?
bool changeIsPending(const std::filesystem::path& rack);
// Finishes or undoes it; for whoever holds the lock for a change.
Status settlePendingChange(const std::filesystem::path& rack);

// Not a way out of the rack: no "..", no root, no backslash.
bool staysInside(const std::string& place);

}  // namespace rackside
