// SPDX-License-Identifier: GPL-3.0-or-later
// A stretch of a board drawn to scale on a sheet: board millimetres to paper millimetres.
#pragma once

#include <QPainterPath>
#include <QRectF>
#include <vector>

#include "core/geometry/polygon.h"
#include "core/wood/board.h"

namespace rackside::sheets {

// Board x runs right, board y runs up the page (the near edge is at the bottom, as it lies before
// the maker).
struct Strip {
  double x0 = 0, x1 = 0;         // board mm shown
  double yBottom = 0, yTop = 0;  // board mm shown
  QPointF origin;                // paper point of (x0, yBottom)
  double scale = 1;              // paper mm a board mm

  QPointF at(Point p) const {
    return {origin.x() + (p.x - x0) * scale, origin.y() - (p.y - yBottom) * scale};
  }
  QRectF box() const {
    return {origin.x(), origin.y() - (yTop - yBottom) * scale, (x1 - x0) * scale,
            (yTop - yBottom) * scale};
  }
  QPainterPath path(const Polygons& shape) const;
};

struct StripLayout {
  std::vector<Strip> strips;  // origins set
  double denominator = 1;     // drawn 1 : denominator
  double heightMm = 0;        // of all, gaps included
};

// Fits the board into `room`, whole when it reads well so, else in two or three stretches one under
// the other; each stretch keeps `aboveMm` and `belowMm` of paper free for dimensions and words. The
// scale is a round one.
StripLayout layOut(const Board& board, const QRectF& room, double aboveMm, double belowMm);

}  // namespace rackside::sheets
