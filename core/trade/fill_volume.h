// SPDX-License-Identifier: GPL-3.0-or-later
// The volume of a hollow that is still there after its top has been planed away. Plain geometry.
#pragma once

#include <optional>
#include <string_view>

#include "core/wood/mark_traits.h"

namespace rackside {

std::string_view name(FillProfile profile);
std::optional<FillProfile> fillProfileFromName(std::string_view name);

// Share of its area at the face that the hollow still has at a share of its depth: upright walls
// keep 1; a wedge's falls evenly to 0; a bowl's (half an ellipsoid) as 1 − z².
double areaShareAt(FillProfile profile, double depthShare);

// Volume in mm³ between the depths `topMm` and `bottomMm` below the face, of a hollow `depthMm`
// deep whose mouth at the face is `areaMm2`; what lies beyond its depth counts nothing.
double hollowVolumeMm3(FillProfile profile, double areaMm2, double depthMm, double topMm,
                       double bottomMm);

// What the maker said of it: the key "profile" of the mark; empty when that is no profile's name.
std::optional<FillProfile> saidProfile(const Mark& mark);

}  // namespace rackside
