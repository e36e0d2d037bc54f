// SPDX-License-Identifier: GPL-3.0-or-later
// What each place of a face may be, as the network sees it.
#pragma once

#include <array>
#include <opencv2/core.hpp>

#include "core/base/run_control.h"
#include "vision/wood/propose/mark_model.h"

namespace rackside {

// The sampling at which marks are looked for, mm per pixel.
inline constexpr double kProposeMmPerPx = 0.5;

// CV_32F probabilities, one map a kind, at half the picture's size (a value stands for 2 × 2
// pixels); where there is no wood all is 0.
using KindMaps = std::array<cv::Mat, kRegionKinds>;

// bgr: CV_8UC3 at kProposeMmPerPx, fibres along x; wood: CV_8U of its size, 255 where it is wood.
// In tiles, so that memory does not grow with the face but by the maps; ends early, with nothing
// seen in the rest, when `run` says so.
KindMaps kindMaps(const MarkModel& model, const cv::Mat& bgr, const cv::Mat& wood, RunControl& run);

// The wood's median colour, blue green red, 0..255.
cv::Vec3d medianOfWood(const cv::Mat& bgr, const cv::Mat& wood);

}  // namespace rackside
