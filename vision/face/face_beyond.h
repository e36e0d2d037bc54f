// SPDX-License-Identifier: GPL-3.0-or-later
// Whether the face goes on beyond what was taken for a side of the board: sapwood that looks like
// the ground is as rough as the rest of the face, and the ground is not.
#pragma once

#include "vision/face/rough_outline.h"

namespace rackside {

// For lower and upper sides: whether the strip just outside is rougher like the face than like what
// lies farther off. On rendered scenes the mean evidence was above 1.6 where sapwood had been taken
// for ground, and below 0 everywhere else.
bool faceGoesOn(const AxisFace& axis, const RoughSide& side, const RoughnessModel& model);

// Moves such a side out to where that roughness ends.
void moveToEndOfFace(const AxisFace& axis, const RoughnessModel& model, RoughSide& side);

}  // namespace rackside
