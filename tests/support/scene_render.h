// SPDX-License-Identifier: GPL-3.0-or-later
// Renders a scene to photographs with their truth, or takes them from the cache.
#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <vector>

#include "core/base/result.h"
#include "tests/support/scene.h"

namespace rackside::synthetic {

struct RenderOptions {
  int threads = 2;
  bool useCache = true;
};

struct RenderedScene {
  std::vector<std::filesystem::path> photos;  // one a camera: NAME.jpg or NAME-1.jpg …
  std::filesystem::path truthFile;            // NAME.truth.json
  nlohmann::json truth;
};

// Writes into `folder`. The cache is
// ${RACKSIDE_SCENES:-${XDG_CACHE_HOME:-~/.cache}/rackside-scenes}; its key is a hash of the scene,
// of the renderer's version and of the cards' look. Fails when POV-Ray is missing or fails.
Result<RenderedScene> renderScene(const SceneSpec& scene, const std::filesystem::path& folder,
                                  const RenderOptions& options = {});

std::filesystem::path sceneCache();

}  // namespace rackside::synthetic
