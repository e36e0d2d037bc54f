// SPDX-License-Identifier: GPL-3.0-or-later
// Which board shows best for a part: every board's best place for it by a wish, and why.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/base/run_control.h"
#include "core/job/shop.h"
#include "core/wood/board.h"
#include "vision/wood/figure_maps.h"
#include "vision/wood/rank/wish.h"

namespace rackside {

struct Placement {
  BoardId board;
  Face face = Face::A;
  // Part frame: x along its length, y across, origin at the corner of least x and y as it lies on
  // the board. Shown on face B the part is seen from below (mirrored in y).
  Pose boardFromPart;
  Polygon outline;   // finished, board frame
  double score = 0;  // 0..1, how far the wish is fulfilled, less what has to be filled
  PlaceReading reading;
  std::vector<std::string> reasons;  // plain words, what matters most first
  std::vector<MarkId> marks;         // inside the finished part, allowed there
};

struct NotRanked {
  BoardId board;
  std::string why;  // and what to do about it, where anything can be done
};

struct Ranking {
  Wish wish;
  std::vector<Placement> places;  // one a board, best first
  std::vector<NotRanked> notRanked;
  std::vector<std::string> remarks;  // what would tell more
};

// A face's figure, or why there is none. Called from several threads at once.
using FigureSource = std::function<Result<FigureMaps>(const Board&, Face)>;

// Fails when the part itself is at fault. Boards that cannot serve are in notRanked, with why.
Result<Ranking> rankBoards(const std::vector<Board>& boards, const Part& part, const Shop& shop,
                           const Wish& wish, const FigureSource& figures, RunControl& control);

// How a face may be judged: whether its colour counts, in words where it does not.
struct FaceJudged {
  bool colour = true;
  std::string remark;  // such as "is grey and rough: not judged on colour"
};
FaceJudged judgedBy(const Picture& picture, const FaceColour& colour);

}  // namespace rackside
