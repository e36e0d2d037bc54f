// SPDX-License-Identifier: GPL-3.0-or-later
// Redrawing a stretch of an outline. Pure, in board mm.
#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/wood/board.h"

namespace rackside {

struct OutlinePlace {
  size_t side = 0;   // between vertex `side` and the next
  double along = 0;  // 0..1 on that side
  Point at;
  double offMm = 0;  // how far the point asked for was from it
};
// The outline must have at least three vertices.
OutlinePlace nearestPlace(const Outline& outline, Point p);

// A point of the new line with its σ along the normal.
struct StretchPoint {
  Point at;
  double sigmaMm = 0;
};

// The outline with the shorter way from `from` to `to` replaced by `line` (without its ends), which
// counts as drawn. Fails when the result would cross itself.
Result<Outline> withStretch(const Outline& outline, const OutlinePlace& from,
                            const OutlinePlace& to, std::vector<StretchPoint> line,
                            double endSigmaMm);

}  // namespace rackside
