// SPDX-License-Identifier: GPL-3.0-or-later
// How much of its colour a face still shows. Years of grey hide colour and sapwood: a grey face is
// not judged by either.
#pragma once

#include "vision/wood/figure_maps.h"

namespace rackside {

// Fills maps.colour and the warmth layers.
void readColour(const FaceRaster& raster, const std::string& species, FigureMaps& maps);

// Warmth, ln(red / blue) of sRGB values, that the freshly planed heartwood of a species shows by
// daylight, by its colour class; judged by eye from boards and pictures, no source. The least of
// them for woods that nobody knows.
double plainWarmth(const std::string& species);

}  // namespace rackside
