// SPDX-License-Identifier: GPL-3.0-or-later
// The outline of the board in the photographs, by itself: the top arris all round, each stretch
// with its uncertainty and how well it is known.
#pragma once

#include "vision/face/face_views.h"

namespace rackside {

struct FoundOutline {
  // Counter-clockwise, plane frame, from the lower left corner as the axis lies.
  std::vector<OutlineVertex> vertices;
  double axisAngleRad = 0;  // of the board in the plane frame, rough
  double sureShare = 0, unsureShare = 0, bridgedShare = 0;  // of the outline's length
};

// Fails with what to do: no board stands out, the board runs out of the picture (saying where).
Result<FoundOutline> findOutline(FaceViews& views);

}  // namespace rackside
