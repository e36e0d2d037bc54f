// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/corner.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr double kBaseMm = 40;  // of side that a corner is extended from
// A side that is straight farther in is taken to be so up to its corner.
constexpr double kStraightFromMm = 30, kStraightToMm = 130, kStraightMm = 0.5;
// A corner lies near the seen part of either side, or of one that runs straight up to it.
constexpr double kReachMm = 7, kStraightReachMm = 25;

SideLine lineThrough(const std::vector<Point>& points) {
  Point middle;
  double sxx = 0, sxy = 0, syy = 0;
  for (const Point& p : points) middle = middle + (1.0 / double(points.size())) * p;
  for (const Point& p : points) {
    const Point d = p - middle;
    sxx += d.x * d.x, sxy += d.x * d.y, syy += d.y * d.y;
  }
  const double angle = 0.5 * std::atan2(2 * sxy, sxx - syy);
  return {middle, {std::cos(angle), std::sin(angle)}, false};
}

// The line of a side between two distances from its first or last point; the worse half of the
// points has no say.
SideLine lineBetween(const std::vector<EdgePoint>& side, bool atStart, double fromMm, double toMm) {
  const int n = int(side.size());
  const int near = std::min(int(fromMm / kEdgeStepMm), n / 4);
  const int far = std::min(near + int((toMm - fromMm) / kEdgeStepMm), n - 1);
  std::vector<Point> points;
  for (int i = near; i <= far; ++i) points.push_back(side[size_t(atStart ? i : n - 1 - i)].at);
  SideLine line = lineThrough(points);
  for (int pass = 0; pass < 2 && points.size() > 8; ++pass) {
    std::sort(points.begin(), points.end(),
              [&](Point p, Point q) { return offLine(line, p) < offLine(line, q); });
    line = lineThrough({points.begin(), points.begin() + std::ptrdiff_t(points.size() * 2 / 3)});
  }
  int within = 0;
  for (const Point& p : points) within += offLine(line, p) < kStraightMm;
  line.straight = within * 4 >= int(points.size()) * 3;
  return line;
}

// Whether the side clearly runs elsewhere close to its corner.
bool leaves(const std::vector<EdgePoint>& side, bool atStart, const SideLine& line) {
  const size_t from = size_t(kCornerClearMm / kEdgeStepMm),
               to = std::min(size_t(kBaseMm / kEdgeStepMm), side.size());
  size_t off = 0;
  for (size_t i = from; i < to; ++i) {
    const EdgePoint& p = side[atStart ? i : side.size() - 1 - i];
    off += p.state == EdgeState::sure && offLine(line, p.at) > kCornerOffMm;
  }
  return to > from && 2 * off > to - from;
}

double distanceTo(const std::vector<EdgePoint>& side, Point p) {
  double least = 1e18;
  for (const EdgePoint& e : side) least = std::min(least, norm(e.at - p));
  return least;
}

}  // namespace

double offLine(const SideLine& line, Point p) {
  return std::abs(cross(line.along, p - line.at));
}

SideLine lineAtEnd(const std::vector<EdgePoint>& side, bool atStart) {
  const SideLine far = lineBetween(side, atStart, kStraightFromMm, kStraightToMm);
  if (far.straight && !leaves(side, atStart, far)) return far;
  SideLine near = lineBetween(side, atStart, kCornerClearMm, kCornerClearMm + kBaseMm);
  near.straight = false;
  return near;
}

Point cornerOf(const std::vector<EdgePoint>& a, bool startOfA, const std::vector<EdgePoint>& b,
               bool startOfB) {
  const SideLine l = lineAtEnd(a, startOfA), m = lineAtEnd(b, startOfB);
  const double det = cross(l.along, m.along);
  const Point endA = (startOfA ? a.front() : a.back()).at,
              endB = (startOfB ? b.front() : b.back()).at;
  const Point middle = 0.5 * (endA + endB);
  if (std::abs(det) <= 0.2) return middle;
  const Point at = l.at + (cross(m.at - l.at, m.along) / det) * l.along;
  const auto reach = [](const SideLine& line) {
    return line.straight ? kStraightReachMm : kReachMm;
  };
  return distanceTo(a, at) > reach(l) || distanceTo(b, at) > reach(m) ? middle : at;
}

}  // namespace rackside
