// SPDX-License-Identifier: GPL-3.0-or-later
// What a scrawl looks like: ring, cross or tick, or a piece of a line.
#pragma once

#include "vision/wood/crayon/crayon.h"
#include "vision/wood/crayon/scrawls.h"

namespace rackside {

// Nothing when it is none of the three. Shapes in pixels of the picture that `box` lies in.
std::optional<CrayonStroke> strokeOf(const Scrawl& scrawl);

}  // namespace rackside
