// SPDX-License-Identifier: GPL-3.0-or-later
// The steps of writing a file that is never half there (atomic_file.h), for those who write several
// files as one change.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rackside {

// Empty when there is no such file, and only then: a dangling link, a folder in its way or a file
// that may not be read is an error.
Result<std::optional<std::string>> readFileIfThere(const std::filesystem::path& file);

// A new file with the permissions of another, down to the disk.
Status writeAndSync(const std::filesystem::path& newFile, std::string_view bytes,
                    const std::filesystem::path& permissionsOf);
Status renameOver(const std::filesystem::path& from, const std::filesystem::path& to);
// Makes the folder and those above it, each one's entry synced to disk.
Status makeFolders(const std::filesystem::path& folder);
void syncFolder(const std::filesystem::path& folder);

}  // namespace rackside
