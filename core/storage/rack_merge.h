// SPDX-License-Identifier: GPL-3.0-or-later
// Taking in what another program changed in a rack's files while it was open here.
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "core/document/edit.h"
#include "core/storage/rack_folder.h"

namespace rackside {

// When and how large each file of a rack was, by its place: tells cheaply which to read again.
using RackStamps = std::map<std::string, std::string>;
RackStamps rackStamps(const std::filesystem::path& folder);

// The files whose stamps differ, as they are now (empty: gone) where that is not what the snapshot
// knows. Files that cannot be read are left for later.
using ChangedFiles = std::map<std::string, std::optional<std::string>>;
Result<ChangedFiles> changedFiles(const std::filesystem::path& folder, const RackSnapshot& snapshot,
                                  const RackStamps& before, const RackStamps& now);

struct TakenIn {
  std::unique_ptr<Edit> edit;     // null: nothing is different here
  std::vector<std::string> told;  // what was changed on both sides, and which was kept
};
// The edit that brings `ours` to hold both its own changes since the snapshot and those of the
// files, object by object and mark by mark. Where both changed one thing, ours is kept and told.
// The snapshot then knows the files as they are.
TakenIn takeIn(const Rack& ours, RackSnapshot& snapshot, const ChangedFiles& files);

// Three-way merge: objects key by key, lists whose items have an "id" item by item, anything else
// as a whole. Adds to `conflicts` the places that both sides changed differently; ours stays there.
nlohmann::json merged(const nlohmann::json& base, const nlohmann::json& ours,
                      const nlohmann::json& theirs, std::vector<std::string>& conflicts);

}  // namespace rackside
