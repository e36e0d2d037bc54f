// SPDX-License-Identifier: GPL-3.0-or-later
// A piece as it will look: its stretch of the face picture, cut out along its finished outline.
#pragma once

#include <QTransform>

#include "app/sheets/page.h"

namespace rackside::sheets {

// Paper mm from board mm, as the face is seen: face B is stored in face A's frame and lies
// mirrored. The piece's box fills the room as far as its shape allows, from the room's top left
// corner.
QTransform paperFromBoard(const Rect& box, Face face, const QRectF& room);

QPainterPath pathOnPaper(const Polygons& shapes, const QTransform& paperFromBoard);

// Draws the piece into the room (the outline alone where the face has no picture).
void drawPieceFace(Sheet& sheet, const PackInput& in, const Board& board, const Piece& piece,
                   Face face, const QTransform& paperFromBoard);

}  // namespace rackside::sheets
