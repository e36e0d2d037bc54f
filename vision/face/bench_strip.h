// SPDX-License-Identifier: GPL-3.0-or-later
// Where the board is when the cards lie beside it.
#pragma once

#include "vision/face/board_axis.h"

namespace rackside {

Result<AxisGuess> guessBesideCards(const FaceViews& views, const CoarseFace& face);

}  // namespace rackside
