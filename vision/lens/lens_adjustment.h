// SPDX-License-Identifier: GPL-3.0-or-later
// The least squares behind calibrateLens.
#pragma once

#include "vision/lens/calibrate.h"

namespace rackside {

struct LensAdjustment {
  Lens lens;
  double rmsPx = 0;  // each coordinate, of the points kept
  int points = 0, strays = 0;
  std::vector<std::vector<bool>> kept;               // by view and point
  std::vector<std::vector<cv::Point2d>> residualPx;  // seen − modelled
};

Result<LensAdjustment> adjustLens(const std::vector<PatternView>& views, const Lens& start);

}  // namespace rackside
