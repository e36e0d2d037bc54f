// SPDX-License-Identifier: GPL-3.0-or-later
// A first guess of how a board lies: along which line, and where its middle is, before anything of
// its outline is known.
#pragma once

#include "vision/face/face_views.h"

namespace rackside {

struct AxisGuess {
  Pose planeFromAxis;  // x along the board
  // A strip believed to be wood, axis frame: the outline is looked for outward from it.
  std::vector<Point> middle;  // by x
};

// Cards on the board: the line through them and the grain about them. Cards on the bench: the
// longest strip beside them that differs from what lies around the cards. Fails when no strip
// stands out.
Result<AxisGuess> guessAxis(FaceViews& views);

// The plane region that the photographs show, as a box of the given frame, at most `reachMm` from
// the cards.
Rect seenBox(const FaceViews& views, const Pose& planeFromFrame, double reachMm);

}  // namespace rackside
