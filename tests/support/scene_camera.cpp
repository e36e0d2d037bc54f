// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/scene_camera.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace rackside::synthetic {
namespace {

constexpr double kDegree = 3.14159265358979323846 / 180;

// Pinhole image of a point, relative to the principal point, px.
cv::Point2d pinhole(const CameraSpec& camera, const CameraPose& pose, const cv::Vec3d& seen) {
  const cv::Vec3d c = pose.cameraFromSeen * seen + pose.translation;
  if (c[2] <= 1) throw std::logic_error("a scene point lies behind the camera");
  return {camera.focalPx * c[0] / c[2], camera.focalPx * c[1] / c[2]};
}

CameraPose lookAt(const CameraSpec& camera, const cv::Vec3d& target, double distance) {
  const double tilt = camera.tiltDeg * kDegree;
  const double azimuth = camera.azimuthDeg * kDegree;
  const cv::Vec3d toCamera(std::sin(tilt) * std::cos(azimuth), std::sin(tilt) * std::sin(azimuth),
                           std::cos(tilt));
  const cv::Vec3d forward = -toCamera;
  cv::Vec3d right = cv::Vec3d(1, 0, 0) - forward[0] * forward;
  right /= cv::norm(right);
  const cv::Vec3d down = forward.cross(right);
  const double roll = camera.rollDeg * kDegree;
  const cv::Vec3d r = std::cos(roll) * right + std::sin(roll) * down;
  const cv::Vec3d d = forward.cross(r);
  CameraPose pose;
  pose.cameraFromSeen =
      cv::Matx33d(r[0], r[1], r[2], d[0], d[1], d[2], forward[0], forward[1], forward[2]);
  pose.translation = -(pose.cameraFromSeen * (target + distance * toCamera));
  return pose;
}

struct Reach {  // greatest |x| / half width or |y| / half height, and how far x is off middle
  double fill = 0;
  double offMiddlePx = 0;
};

Reach reachOf(const CameraSpec& camera, const CameraPose& pose, double x0, double x1,
              const BoardShape& board) {
  Reach reach;
  cv::Point2d low(1e9, 1e9), high(-1e9, -1e9);
  for (const double x : {x0, x1}) {
    for (const double y : {0.0, board.widthMm + board.taperMm}) {
      const cv::Point2d p = pinhole(camera, pose, {x, y, board.thicknessMm});
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
  }
  reach.fill = std::max((high.x - low.x) / camera.widthPx, (high.y - low.y) / camera.heightPx);
  reach.offMiddlePx = 0.5 * (low.x + high.x);
  return reach;
}

}  // namespace

CameraPose solveCamera(const CameraSpec& camera, const BoardShape& board) {
  const bool whole = camera.fromX == 0 && camera.toX == 0;
  const double x0 = whole ? 0 : camera.fromX;
  const double x1 = whole ? board.lengthMm : camera.toX;
  double aimX = 0.5 * (x0 + x1);
  CameraPose pose;
  for (int round = 0; round < 6; ++round) {
    const cv::Vec3d target(aimX, camera.aimY * board.widthMm, board.thicknessMm);
    double low = 0.3 * (x1 - x0), high = 20 * (x1 - x0);
    for (int i = 0; i < 60; ++i) {
      const double mid = 0.5 * (low + high);
      pose = lookAt(camera, target, mid);
      (reachOf(camera, pose, x0, x1, board).fill > camera.fit ? low : high) = mid;
    }
    const double off = reachOf(camera, pose, x0, x1, board).offMiddlePx;
    const double mmPerPx = footprintMm(camera, pose, board.thicknessMm);
    const double sense = std::cos(camera.rollDeg * kDegree) >= 0 ? 1 : -1;
    aimX += sense * off * mmPerPx;
  }
  return pose;
}

cv::Point2d principalPoint(const CameraSpec& camera) {
  return {0.5 * (camera.widthPx - 1) + camera.cxOff, 0.5 * (camera.heightPx - 1) + camera.cyOff};
}

cv::Point2d distort(const CameraSpec& camera, const cv::Point2d& uv) {
  const double r2 = uv.x * uv.x + uv.y * uv.y;
  return (1 + camera.k1 * r2 + camera.k2 * r2 * r2) * uv;
}

cv::Point2d undistort(const CameraSpec& camera, const cv::Point2d& distortedUv) {
  const double wanted = std::hypot(distortedUv.x, distortedUv.y);
  double r = wanted;
  for (int i = 0; i < 6; ++i) {  // Newton on r (1 + k1 r² + k2 r⁴) = wanted
    const double r2 = r * r;
    const double value = r * (1 + camera.k1 * r2 + camera.k2 * r2 * r2) - wanted;
    r -= value / (1 + 3 * camera.k1 * r2 + 5 * camera.k2 * r2 * r2);
  }
  return wanted > 1e-12 ? (r / wanted) * distortedUv : distortedUv;
}

cv::Point2d projectPoint(const CameraSpec& camera, const CameraPose& pose, const cv::Vec3d& seen) {
  const cv::Point2d uv = (1 / camera.focalPx) * pinhole(camera, pose, seen);
  return camera.focalPx * distort(camera, uv) + principalPoint(camera);
}

double footprintMm(const CameraSpec& camera, const CameraPose& pose, double thicknessMm) {
  const cv::Vec3d centre = pose.centreSeen();
  const cv::Vec3d forward(pose.cameraFromSeen(2, 0), pose.cameraFromSeen(2, 1),
                          pose.cameraFromSeen(2, 2));
  const double along = (thicknessMm - centre[2]) / forward[2];
  return along / camera.focalPx;
}

}  // namespace rackside::synthetic
