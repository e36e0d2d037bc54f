// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/face_beyond.h"

#include <algorithm>

namespace rackside {
namespace {

constexpr double kFromMm = 6;      // outside the wall, the strip looked at begins
constexpr int kCells = 10;         // across it
constexpr double kGoesOn = 0.8;    // mean evidence of such a strip
constexpr double kMost = 3;        // evidence of one place
constexpr int kFarthest = 166;     // cells that a side is moved
constexpr double kEndedMm = 12;    // of ground as sure as can be: the face has ended
constexpr size_t kMedianHalf = 4;  // columns to either side

double outwardOf(const RoughSide& side) {
  return side.side == Side::upper ? 1 : -1;
}

// For face, 0 where nothing is seen.
double evidenceAt(const AxisFace& axis, const RoughnessModel& model, Point p) {
  const int row = axis.row(p.y), column = axis.column(p.x);
  const bool inside = row >= 0 && column >= 0 && row < axis.lab.rows && column < axis.lab.cols;
  if (!inside || !axis.face.usable.at<uchar>(row, column)) return 0;
  return std::clamp(model.evidence(axis.changes.at<cv::Vec3f>(row, column)), -kMost, kMost);
}

double widestWall(const AxisFace& axis, Point p, double outward) {
  double widest = 0;
  for (int photo = 0; photo < int(axis.nadirs.size()); ++photo)
    widest = std::max(widest, axis.wallAt(p, {0, outward}, photo));
  return widest;
}

// How far beyond a place the face goes on.
double reachOfFace(const AxisFace& axis, const RoughnessModel& model, Point from, double outward) {
  double sum = 0, most = 0;
  int reach = 0;  // cells
  for (int k = 0; k < kFarthest && sum > most - kMost * kEndedMm; ++k) {
    sum += kCellFineMm * evidenceAt(axis, model, from + Point{0, outward * k * kCellFineMm});
    if (sum > most) most = sum, reach = k + 1;
  }
  return reach * kCellFineMm;
}

}  // namespace

bool faceGoesOn(const AxisFace& axis, const RoughSide& side, const RoughnessModel& model) {
  const double outward = outwardOf(side);
  double sum = 0, seen = 0;
  for (const Point& p : side.line) {
    const double wall = widestWall(axis, p, outward);
    for (int k = 0; k < kCells; ++k) {
      const double off = outward * (wall + kFromMm + k * kCellFineMm);
      if (const double e = evidenceAt(axis, model, p + Point{0, off}); e != 0) sum += e, ++seen;
    }
  }
  return sum > kGoesOn * seen;
}

void moveToEndOfFace(const AxisFace& axis, const RoughnessModel& model, RoughSide& side) {
  const double outward = outwardOf(side);
  std::vector<double> reach;
  reach.reserve(side.line.size());
  for (const Point& p : side.line) reach.push_back(reachOfFace(axis, model, p, outward));
  for (size_t i = 0; i < side.line.size(); ++i) {
    const size_t from = i > kMedianHalf ? i - kMedianHalf : 0,
                 to = std::min(i + kMedianHalf + 1, reach.size());
    std::vector<double> near(reach.begin() + std::ptrdiff_t(from),
                             reach.begin() + std::ptrdiff_t(to));
    const auto middle = near.begin() + std::ptrdiff_t(near.size() / 2);
    std::nth_element(near.begin(), middle, near.end());
    side.line[i].y += outward * *middle;
  }
}

}  // namespace rackside
