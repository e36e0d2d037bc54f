// SPDX-License-Identifier: GPL-3.0-or-later
// Where sapwood meets heartwood on a face: by colour (sapwood is paler and less warm) and by place
// (it lies along the edges that were nearest the bark). A suggestion for the maker to check.
#pragma once

#include <string>
#include <vector>

#include "vision/wood/figure_maps.h"

namespace rackside {

// Fills maps.sapwood and the sapwood layer; nothing on a face whose grey hides its colour.
void readSapwood(const FaceRaster& raster, const LightField& light, const std::string& species,
                 FigureMaps& maps);

// Heartwood and sapwood of this species are alike enough to be taken for each other.
bool sapwoodIsFaint(const std::string& species);

// The sapwood as marks for the maker to take, change or refuse: a region each, from the line to
// the outline; author `proposal`, not confirmed. The note says so where it is unsure.
std::vector<Mark> sapwoodMarks(const Board& board, Face face, const FigureMaps& maps);

// In plain words, for each face: what is seen of the sapwood and how sure.
std::string describeSapwood(const FigureMaps& maps, const std::string& species);

}  // namespace rackside
