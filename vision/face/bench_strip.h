// SPDX-License-Identifier: GPL-3.0-or-later
// Where the board is when the cards lie beside it: the strip along the cards that stands out from
// the ground about them.
#pragma once

#include "vision/face/board_axis.h"

namespace rackside {

// `level`: a coarse face about the cards, for the direction. Fails when no strip stands out.
Result<AxisGuess> guessBesideCards(FaceViews& views, const CoarseFace& level);

}  // namespace rackside
