// SPDX-License-Identifier: GPL-3.0-or-later
// One stretch of a board on a sheet: face, outline, marks, pieces, cuts, running dimensions.
#pragma once

#include <optional>
#include <vector>

#include "app/sheets/board_strip.h"
#include "app/sheets/board_work.h"
#include "app/sheets/face_picture.h"
#include "app/sheets/sheet.h"

namespace rackside::sheets {

struct DrawingOptions {
  Face face = Face::A;  // the face shown
  LengthStyle lengths;
};

// Fits a board into the room, with no more paper above and below each stretch than its labels need.
StripLayout layOutWithLabels(const Board& board, const BoardWork& work, const QRectF& room,
                             const DrawingOptions& options);

void drawBoard(Sheet& sheet, const Strip& strip, const Board& board, const BoardWork& work,
               const FacePicture* picture, const DrawingOptions& options);

// A bar of a round length with its figures, `maxWidth` of paper at most; returns its width.
double drawScaleBar(Sheet& sheet, QPointF leftMiddle, double scale, double maxWidth,
                    const LengthStyle& lengths);

}  // namespace rackside::sheets
