// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/exact_camera.h"

namespace rackside::test {

cv::Point2d Camera::project(const cv::Vec3d& atMm) const {
  const cv::Vec3d c = cameraFromPlane * (atMm - centreMm);
  const double u = c[0] / c[2], v = c[1] / c[2], r2 = u * u + v * v;
  const double d = 1 + lens.k1 * r2 + lens.k2 * r2 * r2;
  return {lens.focalPx * d * u + lens.cx, lens.focalPx * d * v + lens.cy};
}

cv::Vec3d Camera::ray(cv::Point2d px) const {
  const double ud = (px.x - lens.cx) / lens.focalPx, vd = (px.y - lens.cy) / lens.focalPx;
  double u = ud, v = vd;
  for (int i = 0; i < 8; ++i) {
    const double r2 = u * u + v * v, d = 1 + lens.k1 * r2 + lens.k2 * r2 * r2;
    u = ud / d;
    v = vd / d;
  }
  return cameraFromPlane.t() * cv::Vec3d(u, v, 1);
}

Camera lookDown(cv::Size size, double focalPx, Point targetMm, double heightMm, double tiltRad,
                double azimuthRad, double rollRad, double k1) {
  Camera camera;
  camera.lens.focalPx = focalPx;
  camera.lens.cx = size.width / 2.0 + 9;
  camera.lens.cy = size.height / 2.0 - 6;
  camera.lens.k1 = k1;
  camera.lens.size = size;
  const cv::Vec3d toTarget(std::cos(azimuthRad) * std::sin(tiltRad),
                           std::sin(azimuthRad) * std::sin(tiltRad), -std::cos(tiltRad));
  camera.centreMm =
      cv::Vec3d(targetMm.x, targetMm.y, 0) - toTarget * (heightMm / std::cos(tiltRad));
  cv::Vec3d right = toTarget.cross(cv::Vec3d(0, 1, 0));  // board's +y is up in an unrolled picture
  right /= cv::norm(right);
  const cv::Vec3d down = toTarget.cross(right);
  const cv::Vec3d x = std::cos(rollRad) * right + std::sin(rollRad) * down;
  const cv::Vec3d y = toTarget.cross(x);
  camera.cameraFromPlane =
      cv::Matx33d(x[0], x[1], x[2], y[0], y[1], y[2], toTarget[0], toTarget[1], toTarget[2]);
  return camera;
}

cv::Point2d ExactAdjustment::imageFromPlane(size_t photo, Point p, double zMm) const {
  return cameras_.at(photo).project({p.x, p.y, zMm});
}

std::optional<Point> ExactAdjustment::planeFromImage(size_t photo, cv::Point2d px,
                                                     double zMm) const {
  const Camera& camera = cameras_.at(photo);
  const cv::Vec3d ray = camera.ray(px);
  if (ray[2] > -1e-6) return std::nullopt;
  const double s = (zMm - camera.centreMm[2]) / ray[2];
  return Point{camera.centreMm[0] + s * ray[0], camera.centreMm[1] + s * ray[1]};
}

cv::Point3d ExactAdjustment::cameraCentre(size_t photo) const {
  const cv::Vec3d& c = cameras_.at(photo).centreMm;
  return {c[0], c[1], c[2]};
}

std::optional<Pose> ExactAdjustment::planeFromCard(int number) const {
  for (const auto& [n, pose] : placed)
    if (n == number) return pose;
  return std::nullopt;
}

}  // namespace rackside::test
