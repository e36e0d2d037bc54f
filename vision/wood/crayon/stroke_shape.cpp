// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/stroke_shape.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "vision/wood/propose/region_shape.h"

namespace rackside {
namespace {

constexpr double kLineLeastMm = 130, kLineSlimness = 7, kLineWander = 0.22;
constexpr double kMostGapMm = 24;         // of a ring that is not quite closed
constexpr double kRingLeastInsideMm = 8;  // across
constexpr double kArmLeastMm = 14;        // of a cross or tick, from where its strokes meet
constexpr double kEvenArms = 0.5;         // of a cross: the shortest against the longest
constexpr int kAngles = 72;
constexpr double kHoleSemiMm = 6;  // of the hole that a cross stands for
constexpr double kFavourMarginMm = 15;

double degrees(int steps) {
  return 360.0 * steps / kAngles;
}

cv::Mat disc(double radiusPx) {
  const int r = std::max(1, cvRound(radiusPx));
  return cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * r + 1, 2 * r + 1});
}

Region regionOf(const cv::Mat& mask, cv::Point corner) {
  Region r;
  const cv::Rect box = cv::boundingRect(mask);
  r.box = box + corner;
  r.mask = mask(box).clone();
  r.areaPx = cv::countNonZero(mask);
  return r;
}

// The largest place that the mask walls in, or nothing.
cv::Mat enclosed(const cv::Mat& mask) {
  cv::Mat labels, stats, middles;
  const int count = cv::connectedComponentsWithStats(mask == 0, labels, stats, middles, 4);
  int best = 0, bestArea = 0;
  for (int i = 1; i < count; ++i) {
    const cv::Rect b(stats.at<int>(i, cv::CC_STAT_LEFT), stats.at<int>(i, cv::CC_STAT_TOP),
                     stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT));
    if (b.x == 0 || b.y == 0 || b.br().x == mask.cols || b.br().y == mask.rows) continue;
    if (stats.at<int>(i, cv::CC_STAT_AREA) > bestArea)
      best = i, bestArea = stats.at<int>(i, cv::CC_STAT_AREA);
  }
  return best > 0 ? cv::Mat(labels == best) : cv::Mat();
}

double hullArea(const cv::Mat& mask) {
  std::vector<cv::Point> points, hull;
  cv::findNonZero(mask, points);
  cv::convexHull(points, hull);
  return cv::contourArea(hull);
}

std::optional<CrayonStroke> asRing(const Scrawl& s, const cv::Mat& framed, int frame) {
  for (double gap = 0; gap <= kMostGapMm; gap += 4) {
    cv::Mat walls = framed;
    if (gap > 0) cv::morphologyEx(framed, walls, cv::MORPH_CLOSE, disc(gap / 2 / s.mmPerPx));
    cv::Mat inside = enclosed(walls);
    if (inside.empty()) continue;
    if (gap > 0) {  // closing rounds the corners of what is inside: give it back
      cv::dilate(inside, inside, disc(gap / 2 / s.mmPerPx));
      inside &= ~framed;
    }
    const double insidePx = cv::countNonZero(inside), hull = hullArea(framed);
    cv::Mat depth;
    cv::distanceTransform(inside, depth, cv::DIST_L2, 3);
    double deepest = 0;
    cv::minMaxLoc(depth, nullptr, &deepest);
    // Most of what the hull holds is inside; a cross or tick holds nothing, or its own angles.
    const double strokePx = cv::countNonZero(framed);
    if (2 * deepest * s.mmPerPx < kRingLeastInsideMm || insidePx < 0.62 * (hull - strokePx) ||
        insidePx < 0.18 * hull)
      continue;
    cv::Mat toMiddle;
    cv::dilate(inside, toMiddle, disc(s.widthMm / 2 / s.mmPerPx));
    const Region region = regionOf(toMiddle, s.box.tl() - cv::Point(frame, frame));
    return CrayonStroke{StrokeKind::ring, gap > 0 ? 0.85 : 0.95,
                        shapeOf(region, RegionKind::liveKnot)};
  }
  return std::nullopt;
}

std::optional<CrayonStroke> asLine(const Scrawl& s) {
  const Region region = regionOf(s.mask, s.box.tl());
  const cv::RotatedRect turned = [&] {
    std::vector<cv::Point> points;
    cv::findNonZero(s.mask, points);
    return cv::minAreaRect(points);
  }();
  const double length = std::max(turned.size.width, turned.size.height) * s.mmPerPx,
               across = std::min(turned.size.width, turned.size.height) * s.mmPerPx;
  if (length < kLineLeastMm || length < kLineSlimness * s.widthMm ||
      across > s.widthMm + kLineWander * length)
    return std::nullopt;
  const MarkShape shape = shapeOf(region, RegionKind::crack);
  const auto& line = std::get<Stroke>(shape);
  const Point way = line.points.back() - line.points.front();
  if (std::abs(way.y) > 0.5 * std::abs(way.x)) return std::nullopt;  // along the board
  return CrayonStroke{StrokeKind::line, 0.9, shape};
}

// How far the stroke reaches from `from` in each direction, in pixels.
std::vector<double> reachesFrom(const cv::Mat& mask, cv::Point2d from, double stepOverPx) {
  std::vector<double> reach(kAngles);
  const double farthest = std::hypot(mask.cols, mask.rows);
  for (int a = 0; a < kAngles; ++a) {
    const double c = std::cos(degrees(a) * CV_PI / 180), s = std::sin(degrees(a) * CV_PI / 180);
    double last = 0;
    for (double r = 0; r < farthest && r <= last + stepOverPx; r += 1) {
      const int x = cvRound(from.x + r * c), y = cvRound(from.y + r * s);
      if (x < 0 || y < 0 || x >= mask.cols || y >= mask.rows) break;
      if (mask.at<uint8_t>(y, x)) last = r;
    }
    reach[static_cast<size_t>(a)] = last;
  }
  return reach;
}

struct Arm {
  int at = 0;  // of kAngles
  double reachPx = 0;
};

int between(int a, int b) {
  const int d = std::abs(a - b) % kAngles;
  return std::min(d, kAngles - d);
}

// The directions in which the stroke reaches farthest, longest first, at least 42° apart: a stroke
// of width w reaches 0.75 w that far off its own direction.
std::vector<Arm> armsOf(const std::vector<double>& reach) {
  std::vector<int> order(kAngles);
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return reach[static_cast<size_t>(a)] > reach[static_cast<size_t>(b)];
  });
  std::vector<Arm> arms;
  for (const int a : order) {
    const bool apart = std::all_of(arms.begin(), arms.end(), [&](const Arm& other) {
      return between(a, other.at) * 360 >= 42 * kAngles;
    });
    if (apart) arms.push_back({a, reach[static_cast<size_t>(a)]});
    if (arms.size() == 5) break;
  }
  return arms;
}

// Two lines that cross: four arms of about one length, opposite in pairs. Returns the shortest arm,
// 0 when there are not four.
double crossing(const std::vector<Arm>& arms) {
  if (arms.size() < 4 || arms[3].reachPx < kEvenArms * arms[0].reachPx) return 0;
  const auto opposite = [&](size_t i, size_t j) {
    return between(arms[i].at, arms[j].at) * 360 >= 148 * kAngles;
  };
  const bool pairs = (opposite(0, 1) && opposite(2, 3)) || (opposite(0, 2) && opposite(1, 3)) ||
                     (opposite(0, 3) && opposite(1, 2));
  return pairs ? arms[3].reachPx : 0;
}

// Two arms at an angle. Returns the shorter arm, 0 when they run on straight or there are more.
double bend(const std::vector<Arm>& arms) {
  if (arms.size() < 2) return 0;
  const double angle = degrees(between(arms[0].at, arms[1].at));
  if (angle < 28 || angle > 138) return 0;
  const double third = arms.size() > 2 ? arms[2].reachPx : 0;
  return third > 0.7 * arms[1].reachPx ? 0 : arms[1].reachPx;
}

struct Meeting {
  double crossPx = 0, bendPx = 0;
  cv::Point crossAt, bendAt;
};

Meeting meetingOf(const Scrawl& s) {
  Meeting best;
  const int step = std::max(1, cvRound(2.5 / s.mmPerPx));
  for (int y = 0; y < s.mask.rows; y += step)
    for (int x = 0; x < s.mask.cols; x += step) {
      if (!s.mask.at<uint8_t>(y, x)) continue;
      const auto arms = armsOf(reachesFrom(s.mask, cv::Point2d(x, y), 4 / s.mmPerPx));
      const double cross = crossing(arms), angle = bend(arms);
      if (cross > best.crossPx) best.crossPx = cross, best.crossAt = {x, y};
      if (angle > best.bendPx) best.bendPx = angle, best.bendAt = {x, y};
    }
  return best;
}

std::optional<CrayonStroke> asCrossOrTick(const Scrawl& s) {
  const Meeting m = meetingOf(s);
  const double least = std::max(kArmLeastMm, 1.15 * s.widthMm) / s.mmPerPx;
  if (m.crossPx >= least) {
    const Point at{double(s.box.x + m.crossAt.x), double(s.box.y + m.crossAt.y)};
    const double semi = kHoleSemiMm / s.mmPerPx;
    return CrayonStroke{StrokeKind::cross, 0.95, Ellipse{at, semi, semi, 0}};
  }
  if (m.bendPx < least) return std::nullopt;
  const double margin = kFavourMarginMm / s.mmPerPx;
  return CrayonStroke{StrokeKind::tick, 0.9,
                      Ellipse{{s.box.x + s.box.width / 2.0, s.box.y + s.box.height / 2.0},
                              s.box.width / 2.0 + margin,
                              s.box.height / 2.0 + margin,
                              0}};
}

}  // namespace

std::optional<CrayonStroke> strokeOf(const Scrawl& s) {
  const int frame = cvCeil(kMostGapMm / s.mmPerPx) + 2;
  cv::Mat framed;
  cv::copyMakeBorder(s.mask, framed, frame, frame, frame, frame, cv::BORDER_CONSTANT, 0);
  if (auto line = asLine(s)) return line;
  // A cross whose ends were joined by the hand walls in a little; its four arms tell.
  if (auto ring = asRing(s, framed, frame)) return ring;
  return asCrossOrTick(s);
}

}  // namespace rackside
