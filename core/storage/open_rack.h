// SPDX-License-Identifier: GPL-3.0-or-later
// A rack's folder (rack_folder.h) opened by one who lives with what is damaged in it, and who may
// hold it from reading to writing.
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/storage/folder_lock.h"
#include "core/storage/rack_change.h"
#include "core/storage/rack_folder.h"

namespace rackside {

// A file of the rack that is there and could not be taken in.
struct DamagedFile {
  std::string place;    // in the rack: "boards/<id>/board.json"
  std::string message;  // which file, what is wrong and what to do
};

struct OpenedRack {
  Rack rack;
  RackSnapshot snapshot;
  std::vector<DamagedFile> damaged;  // never written over
  std::vector<std::string> remarks;  // what the maker should know: two boards of one name, …
  std::shared_ptr<const FolderLock> lock;  // held from reading on, where that was asked for
};

enum class RackUse {
  read,   // others may change it once this has been read
  change  // nobody else changes it while the result lives; the folder is made when needed
};

// What can be read of a rack; what cannot is named. Fails when there is no folder, when another
// program keeps it locked, or when a change that was cut off cannot be finished.
Result<OpenedRack> openRack(const std::filesystem::path& folder, RackUse use = RackUse::read);

// saveRack() for a rack that was opened for a change; `more`: files that are part of the same
// action.
Status storeRack(OpenedRack& opened, const std::filesystem::path& folder,
                 const RackChange& more = {});

// A list that is replaced as a whole is kept here, under its own name.
inline constexpr const char* kBeforeFolder = "before/";

// Where the pictures of a board lie that has not been saved yet: its first save takes them in. What
// is still there a day later is cleared away when the rack is next changed.
std::filesystem::path waitingFolder(const std::filesystem::path& rackFolder, const BoardId& board);

}  // namespace rackside
