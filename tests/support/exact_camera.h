// SPDX-License-Identifier: GPL-3.0-or-later
// A camera with a lens that is known exactly, in the place of an adjustment: for tests of the face.
#pragma once

#include <opencv2/core.hpp>

#include "vision/measure/adjustment.h"

namespace rackside::test {

struct Camera {
  Lens lens;
  cv::Matx33d cameraFromPlane;  // turn
  cv::Vec3d centreMm;           // in the plane frame

  cv::Point2d project(const cv::Vec3d& atMm) const;
  cv::Vec3d ray(cv::Point2d px) const;  // direction in the plane frame
};

// Looks from `heightMm` above (x, y) towards a point of the plane: tilted by tiltRad towards the
// azimuth, then rolled about the line of sight.
Camera lookDown(cv::Size size, double focalPx, Point targetMm, double heightMm, double tiltRad,
                double azimuthRad, double rollRad, double k1);

class ExactAdjustment : public Adjustment {
 public:
  explicit ExactAdjustment(std::vector<Camera> cameras) : cameras_(std::move(cameras)) {}
  cv::Point2d imageFromPlane(size_t photo, Point planeMm, double zMm = 0) const override;
  std::optional<Point> planeFromImage(size_t photo, cv::Point2d px, double zMm = 0) const override;
  cv::Point3d cameraCentre(size_t photo) const override;
  const Lens& lens(size_t photo) const override { return cameras_.at(photo).lens; }
  const std::vector<CardFit>& cards() const override { return cards_; }
  std::optional<Pose> planeFromCard(int number) const override;
  std::optional<Pose> planeFromTarget(const std::string&) const override { return std::nullopt; }
  double rmsPx() const override { return 0.1; }
  std::vector<PlaneMode> planeModes(const Polygon&, const Pose&) const override { return {}; }
  std::vector<std::string> advice(const Polygon&, const Pose&) const override { return {}; }
  const std::vector<std::string>& warnings() const override { return warnings_; }

  std::vector<std::pair<int, Pose>> placed;  // cards by number, plane frame

 private:
  std::vector<Camera> cameras_;
  std::vector<CardFit> cards_;
  std::vector<std::string> warnings_;
};

}  // namespace rackside::test
