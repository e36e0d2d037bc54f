// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/stroke_shape.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "vision/wood/crayon/leg_fit.h"
#include "vision/wood/propose/region_shape.h"

namespace rackside {
namespace {

constexpr int kMostGapMm = 24;            // of a ring that is not quite closed
constexpr double kRingLeastInsideMm = 8;  // across
constexpr double kArmLeastMm = 14;        // of a cross or tick, from where its strokes meet
constexpr double kLeastAgreement = 0.5;   // of scrawl and legs
constexpr double kWorthALeg = 0.05;       // so much better must two legs be than one
constexpr double kHoleSemiMm = 6;         // of the hole that a cross stands for
constexpr double kFavourMarginMm = 15;

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
  for (int gap = 0; gap <= kMostGapMm; gap += 4) {
    cv::Mat walls = framed;
    if (gap > 0) cv::morphologyEx(framed, walls, cv::MORPH_CLOSE, disc(gap / 2.0 / s.mmPerPx));
    cv::Mat inside = enclosed(walls);
    if (inside.empty()) continue;
    if (gap > 0) {  // closing rounds the corners of what is inside: give it back
      cv::dilate(inside, inside, disc(gap / 2.0 / s.mmPerPx));
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

Point meetingOf(const Leg& a, const Leg& b) {
  const cv::Point2d along = a.to - a.from, other = b.to - b.from;
  const cv::Point2d at = a.from + (b.from - a.from).cross(other) / along.cross(other) * along;
  return {at.x, at.y};
}

// The scrawl as one leg, two that meet, or two that cross; nothing when none is like it.
std::optional<CrayonStroke> asLegs(const Scrawl& s, const cv::Mat& framed, cv::Point corner) {
  const double width = s.widthMm / s.mmPerPx,
               least = std::max(kArmLeastMm, 1.15 * s.widthMm) / s.mmPerPx;
  const LegFit one = fitOneLeg(framed, width), bend = fitBend(framed, width, least),
               crossing = fitCrossing(framed, width, least);
  const double best = std::max(bend.agreement, crossing.agreement);
  if (best < kLeastAgreement || best < one.agreement + kWorthALeg) return std::nullopt;
  if (crossing.agreement >= bend.agreement) {
    const Point at =
        meetingOf(crossing.legs[0], crossing.legs[1]) + Point{double(corner.x), double(corner.y)};
    const double semi = kHoleSemiMm / s.mmPerPx;
    return CrayonStroke{StrokeKind::cross, 0.95, Ellipse{at, semi, semi, 0}};
  }
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
  if (auto ring = asRing(s, framed, frame)) return ring;
  return asLegs(s, framed, s.box.tl() - cv::Point(frame, frame));
}

}  // namespace rackside
