// SPDX-License-Identifier: GPL-3.0-or-later
// From an outline in the plane to the board frame (core/wood/board.h).
#pragma once

#include "vision/face/outline.h"

namespace rackside {

struct BoardFrame {
  Pose boardFromPlane;
  std::vector<OutlineVertex> vertices;  // board frame
};

// `seenDown`: the direction of the plane that points down in the first picture as a person sees it;
// the near edge is the one towards it. Of a board that stands upright in the picture the lower end
// becomes the left one.
BoardFrame frameBoard(const FoundOutline& found, Point seenDown);

// The plane direction that points down in a photograph as seen, its EXIF orientation applied.
Point seenDown(const Adjustment& adjustment, size_t photo, Point at, int exifOrientation);

Pose inverse(const Pose& pose);

}  // namespace rackside
