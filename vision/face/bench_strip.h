// SPDX-License-Identifier: GPL-3.0-or-later
// Where the board is when the cards lie beside it: the strip along the cards that stands out from
// the ground about them.
#pragma once

#include "vision/face/board_axis.h"

namespace rackside {

// Cards are laid along the board, within a few degrees. Fails when no strip stands out.
Result<AxisGuess> guessBesideCards(FaceViews& views);

}  // namespace rackside
