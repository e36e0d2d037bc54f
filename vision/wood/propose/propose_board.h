// SPDX-License-Identifier: GPL-3.0-or-later
// Proposes marks for a board: each face's newest picture is looked at, cards and crayon are left
// out, and what is seen on both faces at one place is proposed as going through.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/wood/board.h"
#include "vision/wood/propose/propose.h"

namespace rackside {

// What a mark's note says of kinds that a board's marks do not tell apart.
inline constexpr const char* kCheckedKnotNote = "with a check in it";
inline constexpr const char* kStreakNote = "a brown streak";

// A face of a board, ready to be looked at.
struct BoardFace {
  FaceToRead face;
  std::array<double, 6> boardFromPicture{};  // mm from pixels of face.bgr
};

// Reads the face's newest picture. `wood` is the outline without a strip along edges that are not
// sure, without printed cards and tags. Fails where there is no picture or no outline.
Result<BoardFace> boardFace(const Board& board, Face face,
                            const std::filesystem::path& boardFolder);

// What is seen on one face, as unconfirmed marks with ids, surest first.
std::vector<Mark> marksFrom(const std::vector<ProposedMark>& proposed, const BoardFace& face,
                            const Board& board, Face side);

// Joins the two faces' marks: one that has its like at the same place of the other face, within the
// registration's uncertainty and the slope a knot may take, goes through, and each makes the other
// surer. What is then still less sure than the model wants its kind to be is dropped.
std::vector<Mark> joinFaces(std::vector<Mark> onA, std::vector<Mark> onB, const Board& board,
                            const MarkModel& model);

}  // namespace rackside
