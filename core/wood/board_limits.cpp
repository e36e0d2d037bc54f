// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/board_limits.h"

#include <algorithm>

#include "core/base/limits.h"

namespace rackside {
namespace {

bool onABoard(Point p) {
  return within(p.x, -kMostBoardMm, kMostBoardMm) && within(p.y, -kMostBoardMm, kMostBoardMm);
}

bool sound(const Measured& m) {
  return within(m.value, 0, 2 * kMostBoardMm) && within(m.u95, 0, kMostBoardMm) &&
         within(m.u95Total, 0, kMostBoardMm);
}

std::string faultOfOutline(const Outline& outline) {
  if (outline.vertices.size() > kMostVertices) return "its outline has too many corners";
  for (const OutlineVertex& v : outline.vertices) {
    if (!onABoard(v.at)) return "its outline reaches beyond 30 m, so a number in it is wrong";
    if (!within(v.sigmaMm, 0, kMostBoardMm)) return "the doubt of its outline is no length";
  }
  for (const PlaneMode& mode : outline.planeModes)
    for (size_t k = 0; k < mode.dx.size(); ++k)
      if (!onABoard({mode.dx[k], mode.dy[k]})) return "the doubt of its plane is no length";
  return {};
}

std::string faultOfFields(const Board& b) {
  if (!within(b.thicknessMm, 0, kMostThicknessMm)) return "its thickness must be from 0 to 1000 mm";
  for (const double mm : {b.bowMm, b.cupMm, b.twistMm})
    if (!within(mm, -kMostDistortionMm, kMostDistortionMm))
      return "its bow, cup and twist must be within 1000 mm";
  if (!within(b.pricePerBoardFoot, 0, kMostPrice))
    return "its price must be from 0 to 1,000,000 a board foot";
  for (const MoistureReading& m : b.moisture)
    if (!within(m.percent, 0, kMostMoisturePercent))
      return "a moisture reading must be from 0 to 300 %";
  if (!sound(b.lengthMm) || !std::all_of(b.widthsMm.begin(), b.widthsMm.end(), sound))
    return "a length or width of it is out of range";
  if (b.faceB && !within(b.faceB->u95Mm, 0, kMostBoardMm))
    return "the doubt of where its face B lies is no length";
  return {};
}

// A picture without a scale has never been laid on the board.
std::string faultOfPicture(const Picture& p) {
  if (!within(p.mmPerPx, 0, kMostBoardMm)) return "the scale of a picture is out of range";
  for (const double m : p.boardFromPicture)
    if (!within(m, -1e3 * kMostBoardMm, 1e3 * kMostBoardMm))
      return "the place of a picture is out of range";
  return {};
}

}  // namespace

Status validate(const Board& board) {
  std::string wrong = faultOfOutline(board.outline);
  if (wrong.empty()) wrong = faultOfFields(board);
  for (const Picture& p : board.pictures)
    if (wrong.empty()) wrong = faultOfPicture(p);
  if (wrong.empty() && board.marks.size() + board.refused.size() > kMostMarks)
    wrong = "it holds more than " + std::to_string(kMostMarks) + " marks";
  if (!wrong.empty()) return Error{"Board \"" + board.name + "\": " + wrong + "."};
  for (const auto* marks : {&board.marks, &board.refused})
    for (const Mark& mark : *marks)
      if (const Status kept = validate(mark); !kept) return kept;
  return success();
}

}  // namespace rackside
