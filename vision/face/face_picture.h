// SPDX-License-Identifier: GPL-3.0-or-later
// The perspective-true picture of a face, from one photograph or several.
#pragma once

#include <array>

#include "vision/face/face_views.h"

namespace rackside {

struct FacePicture {
  cv::Mat bgr;  // CV_8UC3
  double mmPerPx = 0;
  std::array<double, 6> boardFromPicture{};  // as in Picture
};

// `box`: what to show, board frame; a margin is added. `planeFromBoard` may mirror (face B).
// `finestMmPerPx`: 0, or no finer than that.
FacePicture facePicture(FaceViews& views, const cv::Matx23d& planeFromBoard, const Rect& box,
                        double finestMmPerPx);

// The finest sampling of the photographs over the box, mm per pixel: what the picture needs to lose
// nothing.
double finestSampling(const FaceViews& views, const cv::Matx23d& planeFromBoard, const Rect& box);

cv::Matx23d affineOf(const Pose& pose);

}  // namespace rackside
