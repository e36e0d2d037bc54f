// SPDX-License-Identifier: GPL-3.0-or-later
// A calibrated lens as a file, with the camera that it belongs to. Form: lens.schema.json.
#pragma once

#include <filesystem>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "core/base/kept_keys.h"
#include "core/base/result.h"
#include "vision/lens/lens.h"

namespace rackside {

struct KeptLens {
  Lens lens;
  std::string make, model;
  std::optional<double> focalMm;
  double rmsPx = 0;  // of the calibration, each coordinate
  KeptKeys extra;
};

nlohmann::json toJson(const KeptLens& kept);
// Fails on missing keys and on a covariance that is none.
Result<KeptLens> keptLensFromJson(const nlohmann::json& document);

Result<KeptLens> readLensFile(const std::filesystem::path& file);
// Atomic: the old file stays when the new one cannot be written.
Status writeLensFile(const KeptLens& kept, const std::filesystem::path& file);

}  // namespace rackside
