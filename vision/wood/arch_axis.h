// SPDX-License-Identifier: GPL-3.0-or-later
// Where the arches (cathedrals) of a flat sawn face have their axis.
#pragma once

#include "vision/wood/figure_maps.h"

namespace rackside {

// Every kArchStepMm along x where an axis shows inside the face; empty where rings run past it
// only. A plane that cuts rings of radius r at the height h over the pith meets them at y0 ± √(r² −
// h²): about the axis y0 the rings stand far apart, and their spacing shrinks alike to both sides.
std::vector<ArchPoint> archAxis(const FigureMaps& maps);

}  // namespace rackside
