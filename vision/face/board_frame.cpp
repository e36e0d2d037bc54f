// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/board_frame.h"

#include <algorithm>
#include <numbers>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

constexpr double kSectionStepMm = 10;
constexpr double kEndShare = 0.02;  // of the length left out at either end: slanted ends

Polygon turnedBack(const Polygon& p, double angle) {
  return rackside::apply(Pose{{}, -angle}, p);
}

// The chord of a polygon at x; false where it does not reach.
bool chordAt(const Polygon& p, double x, double& low, double& high) {
  low = 1e18, high = -1e18;
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    if ((a.x - x) * (b.x - x) > 0 || a.x == b.x) continue;
    const double y = a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y);
    low = std::min(low, y), high = std::max(high, y);
  }
  return high > low;
}

// How far the least-squares line through the middles of the cross sections is turned against x.
double middlesTurn(const Polygon& p) {
  const Rect box = bounds(p);
  const double inset = kEndShare * box.width();
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (double x = box.x0 + inset; x <= box.x1 - inset; x += kSectionStepMm) {
    double low, high;
    if (!chordAt(p, x, low, high)) continue;
    const double u = x - box.x0, y = (low + high) / 2;
    n += 1, sx += u, sy += y, sxx += u * u, sxy += u * y;
  }
  const double det = n * sxx - sx * sx;
  return det > 0 ? std::atan((n * sxy - sx * sy) / det) : 0;
}

Point asSeen(cv::Point2d d, int orientation) {
  switch (orientation) {
    case 2:
      return {-d.x, d.y};
    case 3:
      return {-d.x, -d.y};
    case 4:
      return {d.x, -d.y};
    case 5:
      return {d.y, d.x};
    case 6:
      return {-d.y, d.x};
    case 7:
      return {-d.y, -d.x};
    case 8:
      return {d.y, -d.x};
    default:
      return {d.x, d.y};
  }
}

}  // namespace

Pose inverse(const Pose& pose) {
  const Point back = rackside::apply(Pose{{}, -pose.angleRad}, pose.origin);
  return {{-back.x, -back.y}, -pose.angleRad};
}

Point seenDown(const Adjustment& adjustment, size_t photo, Point at, int exifOrientation) {
  const double step = 10;
  const cv::Point2d o = adjustment.imageFromPlane(photo, at);
  const Point x =
      asSeen(adjustment.imageFromPlane(photo, {at.x + step, at.y}) - o, exifOrientation);
  const Point y =
      asSeen(adjustment.imageFromPlane(photo, {at.x, at.y + step}) - o, exifOrientation);
  // Solve for the plane direction whose picture is straight down.
  const double det = x.x * y.y - y.x * x.y;
  const Point down{-y.x / det, x.x / det};
  return (1 / norm(down)) * down;
}

BoardFrame frameBoard(const FoundOutline& found, Point down) {
  Polygon plane;
  for (const OutlineVertex& v : found.vertices) plane.push_back(v.at);
  double angle = found.axisAngleRad;
  for (int i = 0; i < 4; ++i) angle += middlesTurn(turnedBack(plane, angle));
  // y of the board must point away from "down"; upright boards run upwards.
  const Point along{std::cos(angle), std::sin(angle)}, across{-along.y, along.x};
  const double upright = 0.17;  // about ten degrees
  const bool flip =
      std::abs(dot(across, down)) > upright ? dot(across, down) > 0 : dot(along, down) > 0;
  if (flip) angle += std::numbers::pi;
  const Rect box = bounds(turnedBack(plane, angle));
  BoardFrame frame;
  frame.boardFromPlane = {{-box.x0, -box.y0}, -angle};
  frame.vertices = found.vertices;
  for (OutlineVertex& v : frame.vertices) v.at = rackside::apply(frame.boardFromPlane, v.at);
  return frame;
}

}  // namespace rackside
