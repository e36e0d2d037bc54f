// SPDX-License-Identifier: GPL-3.0-or-later
// Procedural wood and grounds for the quick renderer: linear BGR, one texel a fixed size.
#pragma once

#include <cstdint>
#include <opencv2/core.hpp>

#include "tests/support/quick_scene.h"

namespace rackside::test {

double smoothNoise(double x, double y, uint64_t seed);  // -1..1, lattice of unit cells
// lengthMm x widthMm of board, CV_32FC3; x along the grain.
cv::Mat woodTexture(cv::Size sizePx, double pxPerMm, const QuickSceneOptions& options,
                    uint64_t seed);
cv::Mat groundTexture(cv::Size sizePx, double pxPerMm, const QuickSceneOptions& options);

}  // namespace rackside::test
