// SPDX-License-Identifier: GPL-3.0-or-later
// What stands about in a workshop: trestles, a bench, tools as plain solids.
#pragma once

#include "tests/support/scene_textures.h"

namespace rackside::synthetic {

// Adds what holds the board up and returns the height of the floor (world z).
double addSupports(const SceneSpec& scene, double lowestWorldZ, SceneTextures& textures,
                   PovWriter& pov);
void addTool(const ToolPlacement& tool, const Rigid& worldFromSeenFrame, PovWriter& pov);

}  // namespace rackside::synthetic
