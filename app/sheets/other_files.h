// SPDX-License-Identifier: GPL-3.0-or-later
// What is written besides the pack, for the verb and the window alike.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/document/rack.h"

namespace rackside::sheets {

// Bytes by file: all made before the first is written.
using Files = std::map<std::filesystem::path, std::string>;

enum class DrawingFormat { svg, dxf };
// One drawing a board in `folder`.
Files drawingFiles(const Rack& rack, DrawingFormat format, const std::filesystem::path& folder);
// Tables of boards, marks, parts, pieces, cuts (CSV).
Files tableFiles(const Rack& rack, const std::filesystem::path& folder);

// Makes the folders and writes each file atomically; stops at the first that fails.
Status writeFiles(const Files& files);

// Every face picture there is, as PNG with a world file beside it (face_file.h). Written one by
// one: the faces of a whole rack are too large to hold at once. Returns the files written.
Result<std::vector<std::filesystem::path>> writeFaceFiles(const Rack& rack,
                                                          const std::filesystem::path& rackFolder,
                                                          const std::filesystem::path& folder);

}  // namespace rackside::sheets
