// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/use_place.h"

#include <algorithm>
#include <set>

#include "core/plan/blank_kind.h"
#include "core/plan/drying.h"
#include "core/plan/made_cuts.h"

namespace rackside {

namespace {

// A copy without a place, or with one that can be given up; `plan` no longer holds it then.
std::optional<int> freeCopy(Plan& plan, const Part& part) {
  std::set<int> placed;
  for (const Piece& piece : plan.pieces)
    if (piece.part == part.id) placed.insert(piece.copy);
  for (int copy = 1; copy <= part.copies; ++copy)
    if (!placed.contains(copy)) return copy;
  for (auto piece = plan.pieces.rbegin(); piece != plan.pieces.rend(); ++piece) {
    if (piece->part != part.id || hasMadeCuts(plan, piece->board)) continue;
    const int copy = piece->copy;
    const BlankId blank = piece->blank;
    std::erase_if(plan.blanks, [&](const Blank& b) { return b.id == blank; });
    std::erase_if(plan.pieces, [&](const Piece& p) { return p.blank == blank; });
    return copy;
  }
  return std::nullopt;
}

// The rough blank of one copy with the finished part in its middle.
Blank blankRound(const Rack& rack, const Part& part, const Placement& place) {
  const Board* board = rack.findBoard(place.board);
  const double drying = board ? dryingOf(*board, rack.shop).acrossShare : 0;
  const auto kinds = blankKinds(part, 0, rack.shop, 1, {drying});
  Blank blank;
  blank.id = {newIdText("blank")};
  blank.board = place.board;
  blank.roughLengthMm = part.lengthMm + rack.shop.lengthAllowanceMm;
  blank.roughWidthMm = part.widthMm + rack.shop.widthAllowanceMm;
  for (const BlankKind& kind : kinds)
    if (kind.copies == 1 && !kind.turned && kind.showFace == place.face) {
      blank.roughLengthMm = kind.roughLengthMm;
      blank.roughWidthMm = kind.roughWidthMm;
    }
  const Point corner{(part.lengthMm - blank.roughLengthMm) / 2,
                     (part.widthMm - blank.roughWidthMm) / 2};
  blank.boardFromBlank = {apply(place.boardFromPart, corner), place.boardFromPart.angleRad};
  blank.finishedThicknessMm = part.thicknessMm;
  return blank;
}

}  // namespace

std::optional<PlacedThere> withPieceAt(const Rack& rack, const Part& part, const Placement& place) {
  Plan plan = rack.plan.value_or(Plan{});
  const auto copy = freeCopy(plan, part);
  if (!copy) return std::nullopt;
  const Blank blank = blankRound(rack, part, place);
  Piece piece;
  piece.id = {newIdText("piece")};
  piece.part = part.id;
  piece.copy = *copy;
  piece.blank = blank.id;
  piece.board = place.board;
  piece.showFace = place.face;
  piece.outline = place.outline;
  piece.lengthMm = part.lengthMm;
  piece.widthMm = part.widthMm;
  piece.angleRad = place.boardFromPart.angleRad;
  plan.blanks.push_back(blank);
  plan.pieces.push_back(piece);
  return PlacedThere{std::move(plan), piece.id};
}

}  // namespace rackside
