// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/plane_view.h"

#include <ceres/jet.h>

#include <Eigen/LU>
#include <Eigen/SVD>
#include <algorithm>
#include <cmath>
#include <opencv2/calib3d.hpp>

#include "vision/measure/projection.h"

namespace rackside::measure {
namespace {

struct CameraPose {
  cv::Matx33d cameraFromPlane;
  cv::Vec3d shift;
};

CameraPose poseOf(const Fit& f, size_t photo) {
  const PoseBlock& p = f.at.cameras[photo];
  CameraPose pose{{}, {p[3], p[4], p[5]}};
  cv::Rodrigues(cv::Vec3d(p[0], p[1], p[2]), pose.cameraFromPlane);
  return pose;
}

// u/v at z = 1 of a distorted radius; empty beyond the radius where the model folds back.
std::optional<cv::Point2d> undistorted(const LensBlock& lens, cv::Point2d px) {
  const cv::Point2d bent((px.x - lens[centreX]) / lens[focal],
                         (px.y - lens[centreY]) / lens[focal]);
  const double target = std::hypot(bent.x, bent.y);
  if (target < 1e-12) return bent;
  double r = target;
  for (int i = 0; i < 20; ++i) {
    const double r2 = r * r;
    const double slope = 1 + r2 * (3 * lens[radial1] + r2 * 5 * lens[radial2]);
    if (slope <= 0.05) return std::nullopt;
    const double step = (r * (1 + r2 * (lens[radial1] + r2 * lens[radial2])) - target) / slope;
    r -= step;
    if (std::abs(step) < 1e-13) break;
  }
  return (r / target) * bent;
}

double surface(const Fit& f, Point p) {
  return faceHeight(f.scene.bow, f.at.shared[bowEnds], p.x, p.y);
}

}  // namespace

cv::Point2d imageFromPlane(const Fit& f, size_t photo, Point planeMm, double zMm) {
  const double plane3[] = {planeMm.x, planeMm.y, zMm + surface(f, planeMm)};
  double px[2] = {std::nan(""), std::nan("")};
  project(f.at.lenses[f.scene.lensOf[photo]].data(), f.at.cameras[photo].data(), plane3, px);
  return {px[0], px[1]};
}

std::optional<Point> planeFromImage(const Fit& f, size_t photo, cv::Point2d px, double zMm) {
  const auto ray = undistorted(f.at.lenses[f.scene.lensOf[photo]], px);
  if (!ray) return std::nullopt;
  const CameraPose pose = poseOf(f, photo);
  const cv::Vec3d along = pose.cameraFromPlane.t() * cv::Vec3d(ray->x, ray->y, 1);
  const cv::Vec3d centre = -(pose.cameraFromPlane.t() * pose.shift);
  if (along[2] > -1e-9) return std::nullopt;
  Point p;
  double height = zMm;
  for (int i = 0; i < 20; ++i) {  // a bow is shallow: each round gains about two digits
    const double t = (height - centre[2]) / along[2];
    if (t <= 0) return std::nullopt;
    const Point next{centre[0] + t * along[0], centre[1] + t * along[1]};
    const bool settled = norm(next - p) < 1e-9;
    p = next;
    height = zMm + surface(f, p);
    if (!f.scene.bow || settled) break;
  }
  return p;
}

cv::Point3d cameraCentre(const Fit& f, size_t photo) {
  const CameraPose pose = poseOf(f, photo);
  const cv::Vec3d centre = -(pose.cameraFromPlane.t() * pose.shift);
  return {centre[0], centre[1], centre[2]};
}

std::optional<Drift> driftOf(const Fit& f, size_t photo, Point planeMm) {
  constexpr int first = 2, pose = first + lensParts, bow = pose + poseParts, all = bow + 1;
  using Jet = ceres::Jet<double, all>;
  const int lensIndex = f.scene.lensOf[photo];
  Jet lens[lensParts], camera[poseParts], plane3[3], px[2];
  for (int i = 0; i < lensParts; ++i) lens[i] = Jet(f.at.lenses[lensIndex][i], first + i);
  for (int i = 0; i < poseParts; ++i) camera[i] = Jet(f.at.cameras[photo][i], pose + i);
  plane3[0] = Jet(planeMm.x, 0);
  plane3[1] = Jet(planeMm.y, 1);
  plane3[2] = faceHeight(f.scene.bow, Jet(f.at.shared[bowEnds], bow), plane3[0], plane3[1]);
  if (!project(lens, camera, plane3, px)) return std::nullopt;
  Eigen::Matrix2d pxPerMm;
  pxPerMm << px[0].v[0], px[0].v[1], px[1].v[0], px[1].v[1];
  Drift drift;
  drift.pxPerMm = Eigen::JacobiSVD<Eigen::Matrix2d>(pxPerMm).singularValues()[1];
  if (drift.pxPerMm < 1e-6) return std::nullopt;
  const Eigen::Matrix2d mmPerPx = -pxPerMm.inverse();
  drift.perColumn = Eigen::MatrixXd::Zero(2, f.columns.count);
  const auto put = [&](int column, int derivative) {
    if (column >= 0)
      drift.perColumn.col(column) =
          mmPerPx * Eigen::Vector2d(px[0].v[derivative], px[1].v[derivative]);
  };
  for (int i = 0; i < lensParts; ++i) put(f.columns.lens[lensIndex][i], first + i);
  for (int i = 0; i < poseParts; ++i) put(f.columns.camera[photo][i], pose + i);
  put(f.columns.shared[bowEnds], bow);
  const cv::Size size = f.scene.sizes[photo];
  drift.borderPx =
      std::min({px[0].a, px[1].a, size.width - 1 - px[0].a, size.height - 1 - px[1].a});
  return drift;
}

Eigen::Matrix<double, 2, Eigen::Dynamic> driftOf(const Fit& f, Point planeMm) {
  Eigen::Matrix<double, 2, Eigen::Dynamic> sum = Eigen::MatrixXd::Zero(2, f.columns.count);
  double weights = 0;
  for (size_t photo = 0; photo < f.scene.sizes.size(); ++photo) {
    const auto drift = driftOf(f, photo, planeMm);
    if (!drift) continue;
    const double fade = 0.1 * f.scene.sizes[photo].width;
    // A point outside every picture still gets the drift of the nearest.
    const double inside = drift->borderPx > 0 ? std::min(1.0, drift->borderPx / fade) + 1e-6
                                              : 1e-6 / (1 - drift->borderPx / fade);
    const double weight = inside * drift->pxPerMm * drift->pxPerMm;
    sum += weight * drift->perColumn;
    weights += weight;
  }
  if (weights > 0) sum /= weights;
  return sum;
}

}  // namespace rackside::measure
