// SPDX-License-Identifier: GPL-3.0-or-later
// Where the camera of a scene stands, and how a point falls on its photograph. Written apart from
// vision/lens, so that it can check it.
#pragma once

#include <opencv2/core.hpp>

#include "tests/support/scene.h"

namespace rackside::synthetic {

struct CameraPose {
  cv::Matx33d cameraFromSeen;  // rotation
  cv::Vec3d translation;       // camera point = cameraFromSeen * seen point + translation
  cv::Vec3d centreSeen() const { return -(cameraFromSeen.t() * translation); }
};

// Solves the distance and the aim so that the stretch fills the wanted share of the picture.
CameraPose solveCamera(const CameraSpec& camera, const BoardShape& board);

cv::Point2d projectPoint(const CameraSpec& camera, const CameraPose& pose, const cv::Vec3d& seen);
// Radial distortion of a normalised image point and its inverse.
cv::Point2d distort(const CameraSpec& camera, const cv::Point2d& uv);
cv::Point2d undistort(const CameraSpec& camera, const cv::Point2d& distortedUv);
cv::Point2d principalPoint(const CameraSpec& camera);
// Millimetres on the face that one pixel covers at the middle of the picture.
double footprintMm(const CameraSpec& camera, const CameraPose& pose, double thicknessMm);

}  // namespace rackside::synthetic
