// SPDX-License-Identifier: GPL-3.0-or-later
// Figure maps kept in the user's cache folder, so that a face is read once.
#pragma once

#include <filesystem>
#include <optional>

#include "core/base/result.h"
#include "core/base/run_control.h"
#include "core/wood/board.h"
#include "vision/wood/figure_maps.h"

namespace rackside {

// $RACKSIDE_CACHE, else $XDG_CACHE_HOME/rackside, else ~/.cache/rackside.
std::filesystem::path defaultCacheFolder();

// One fingerprint of all that the maps of a face depend on: the photographs' hashes, the picture's
// place, size and time of change, the outline, the species, the way of reading.
std::string figureKey(const Board& board, const Picture& picture,
                      const std::filesystem::path& pictureFile);

// Empty when the cache has nothing, something else or something broken under this picture's name.
std::optional<FigureMaps> readFigure(const std::filesystem::path& cacheFolder,
                                     const Picture& picture, const std::string& key);
Status writeFigure(const FigureMaps& maps, const std::filesystem::path& cacheFolder,
                   const Picture& picture, const std::string& key);

// From the cache, else read off the picture and put there (a cache that cannot be written is no
// failure). Fails when the face has no picture or its file cannot be read.
Result<FigureMaps> figureOf(const Board& board, Face face, const std::filesystem::path& rackFolder,
                            const std::filesystem::path& cacheFolder, RunControl& control);

inline constexpr double kFigureMmPerPx = 0.5;

}  // namespace rackside
