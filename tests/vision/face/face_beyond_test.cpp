// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/face_beyond.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace rackside;

namespace {

constexpr double kLengthMm = 600, kHalfMm = 150;          // of the picture
const cv::Vec3f kRough{6, 8, 9}, kSmooth{1, 1.2F, 1.3F};  // changes along, per cent

// A board whose saw marks reach from the picture's middle up to `faceEndMm`, on smooth ground.
AxisFace sawnFace(double faceEndMm) {
  AxisFace axis;
  axis.region = {0, -kHalfMm, kLengthMm, kHalfMm};
  const cv::Size size(int(kLengthMm / kCellFineMm), int(2 * kHalfMm / kCellFineMm));
  axis.lab = cv::Mat(size, CV_8UC3, cv::Scalar(150, 130, 140));
  axis.face.usable = cv::Mat(size, CV_8U, cv::Scalar(255));
  axis.changes.create(size, CV_32FC3);
  cv::RNG random(3);
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      const bool onFace = axis.region.y0 + (y + 0.5) * kCellFineMm < faceEndMm;
      axis.changes.at<cv::Vec3f>(y, x) =
          (onFace ? kRough : kSmooth) * float(random.uniform(0.7, 1.4));
    }
  return axis;
}

RoughnessModel roughFace() {
  cv::RNG random(4);
  std::vector<cv::Vec3f> face, beyond;
  for (int i = 0; i < 400; ++i) {
    face.push_back(kRough * float(random.uniform(0.7, 1.4)));
    beyond.push_back(kSmooth * float(random.uniform(0.7, 1.4)));
  }
  return {face, beyond};
}

RoughSide upperAt(double y) {
  RoughSide side;
  side.side = Side::upper;
  constexpr int kPoints = 100;
  side.line.reserve(kPoints);
  for (int i = 0; i < kPoints; ++i) side.line.push_back({(i + 0.5) * kLengthMm / kPoints, y});
  side.columns.resize(side.line.size());
  return side;
}

}  // namespace

TEST_CASE("sapwood taken for ground shows by the face's roughness beyond the side") {
  const AxisFace axis = sawnFace(90);
  CHECK(faceGoesOn(axis, upperAt(40), roughFace()));
  CHECK_FALSE(faceGoesOn(axis, upperAt(90), roughFace()));
}

TEST_CASE("such a side moves out to where the roughness ends, past what a card hides") {
  AxisFace axis = sawnFace(90);
  axis.face.usable(cv::Rect(100, 120, 60, 30)) = cv::Scalar(0);
  RoughSide side = upperAt(40);
  moveToEndOfFace(axis, roughFace(), side);
  for (const Point& p : side.line) CHECK(std::abs(p.y - 90) < 2 * kCellFineMm);
}

TEST_CASE("a side that lies right stays where it is") {
  RoughSide side = upperAt(90);
  moveToEndOfFace(sawnFace(90), roughFace(), side);
  for (const Point& p : side.line) CHECK(std::abs(p.y - 90) < 2 * kCellFineMm);
}
