// SPDX-License-Identifier: GPL-3.0-or-later
// The calibrated lenses of a maker's cameras, kept by make, model, focal length and picture size,
// so that a scan takes the right one by itself.
#pragma once

#include <filesystem>
#include <optional>

#include "core/base/result.h"
#include "vision/lens/lens_file.h"
#include "vision/photo/photo.h"

namespace rackside {

// ${RACKSIDE_LENSES}, or rackside/lenses below ${XDG_DATA_HOME:-~/.local/share}; empty when neither
// is known.
std::filesystem::path lensShelf();

// Replaces an earlier calibration of the same camera. Makes the folder. Returns the file.
Result<std::filesystem::path> keepLens(const KeptLens& kept, const std::filesystem::path& shelf);

// The lens kept for this camera, focal length and shape of picture; empty when there is none.
std::optional<KeptLens> keptLensFor(const Exif& exif, cv::Size size,
                                    const std::filesystem::path& shelf);

// A calibration as the prior of another photograph of `size` (the same shape, any resolution). Adds
// what changes between photographs: focal length 0.2 % (focusing), principal point 0.1 % of the
// diagonal (stabiliser), k1 and k2 0.001. Common practice, no source. Empty for another shape.
std::optional<Lens> priorFromCalibration(const Lens& calibrated, cv::Size size);

// The prior a scan starts from: the kept lens where there is one, else EXIF (exif_prior.h).
Lens lensFor(const Exif& exif, cv::Size size, const std::filesystem::path& shelf);

}  // namespace rackside
