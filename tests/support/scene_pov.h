// SPDX-License-Identifier: GPL-3.0-or-later
// The renderer's description of a scene seen by one of its cameras.
#pragma once

#include <string>

#include "tests/support/scene_camera.h"
#include "tests/support/scene_textures.h"

namespace rackside::synthetic {

// The solids and lights (the same for all cameras of a scene), without a camera.
std::string povSolids(const SceneSpec& scene, SceneTextures& textures);
std::string povCamera(const SceneSpec& scene, const CameraSpec& camera, const CameraPose& pose);

}  // namespace rackside::synthetic
