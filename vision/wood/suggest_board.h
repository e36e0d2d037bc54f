// SPDX-License-Identifier: GPL-3.0-or-later
// All that a look at a board's pictures suggests: marks of the wood, and what crayon says.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include "core/base/run_control.h"
#include "core/document/edit.h"
#include "core/wood/board.h"
#include "vision/wood/crayon/crayon.h"

namespace rackside {

struct SuggestOptions {
  bool wood = true;  // look for knots, checks, …
  std::optional<CrayonColour>
      crayon;  // read strokes of this colour, and keep them out of the above
  // Whose marks of the wood to propose (a shop's own); empty: the program's.
  std::filesystem::path model;
};

struct BoardSuggestions {
  std::vector<Mark> wood, crayon;  // unconfirmed, with ids
  std::vector<Face> facesLookedAt;
  std::vector<std::string> remarks;  // why little is to be expected of a face
};

// Looks at the newest picture of each face. Fails where there is none, where one or the model
// cannot be read, and when stopped.
Result<BoardSuggestions> suggestForBoard(const Board& board,
                                         const std::filesystem::path& boardFolder,
                                         const SuggestOptions& options, RunControl& run);

// The edit that lays them on the board, one step of undo.
std::unique_ptr<Edit> editOf(const Board& board, const SuggestOptions& options,
                             BoardSuggestions found);

}  // namespace rackside
