// SPDX-License-Identifier: GPL-3.0-or-later
// Wood that cutting into a board uses. mm², board frame.
#pragma once

#include "core/geometry/polygon.h"
#include "core/job/shop.h"

namespace rackside {

// The board's wood up to x; all of it when what is left beyond is too short to be useful.
double stockUpToMm2(const Polygon& outline, double x, const Shop& shop);

}  // namespace rackside
