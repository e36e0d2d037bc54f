// SPDX-License-Identifier: GPL-3.0-or-later
// Files that are never half written.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rackside {

// Writes beside the target, syncs to disk, renames over it, syncs the folder. On failure the old
// file is untouched and nothing is left behind.
Status writeFileAtomically(const std::filesystem::path& file, std::string_view bytes);
Result<std::string> readFile(const std::filesystem::path& file);
// Writes only when the bytes differ from what is there.
Status writeFileIfChanged(const std::filesystem::path& file, std::string_view bytes);

}  // namespace rackside
