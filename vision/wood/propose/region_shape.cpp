// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/region_shape.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

constexpr double kFits = 0.8;         // IoU from which an ellipse stands for a region
constexpr double kStepPx = 5;         // between the points of a crack's line
constexpr double kTolerancePx = 0.6;  // of a polygon, and of a crack's line
constexpr double kLeastSemiPx = 0.75;

struct Axes {
  Point middle;
  double angleRad = 0, sigmaLong = 0, sigmaShort = 0;
};

Axes axesOf(const Region& r) {
  const cv::Moments m = cv::moments(r.mask, true);
  const double xx = m.mu20 / m.m00, yy = m.mu02 / m.m00, xy = m.mu11 / m.m00;
  const double root = std::hypot((xx - yy) / 2, xy), mean = (xx + yy) / 2;
  return {{r.box.x + m.m10 / m.m00, r.box.y + m.m01 / m.m00},
          0.5 * std::atan2(2 * xy, xx - yy),
          std::sqrt(mean + root),
          std::sqrt(std::max(mean - root, 0.0))};
}

Ellipse ellipseOf(const Axes& a) {
  return {a.middle, std::max(2 * a.sigmaLong, kLeastSemiPx),
          std::max(2 * a.sigmaShort, kLeastSemiPx), a.angleRad};
}

double fitOf(const Ellipse& e, const Region& r) {
  const cv::Rect box(r.box.x - 3, r.box.y - 3, r.box.width + 6, r.box.height + 6);
  cv::Mat drawn = cv::Mat::zeros(box.size(), CV_8U);
  const cv::RotatedRect turned(
      {static_cast<float>(e.centre.x - box.x), static_cast<float>(e.centre.y - box.y)},
      {static_cast<float>(2 * e.semiX), static_cast<float>(2 * e.semiY)},
      static_cast<float>(e.angleRad * 180 / CV_PI));
  cv::ellipse(drawn, turned, 255, cv::FILLED);
  const double own = cv::countNonZero(drawn);
  const double both =
      cv::countNonZero(drawn(cv::Rect(r.box.tl() - box.tl(), r.box.size())) & r.mask);
  return both / (own + r.areaPx - both);
}

std::vector<Point> simplified(const std::vector<cv::Point2f>& points, bool closed) {
  std::vector<cv::Point2f> few;
  cv::approxPolyDP(points, few, kTolerancePx, closed);
  std::vector<Point> out;
  out.reserve(few.size());
  for (const cv::Point2f p : few) out.push_back({p.x, p.y});
  return out;
}

// Follows the middle of the region along its long axis.
Stroke lineOf(const Region& r, const Axes& a) {
  const Point along{std::cos(a.angleRad), std::sin(a.angleRad)};
  std::vector<std::pair<double, Point>> placed;
  for (int y = 0; y < r.mask.rows; ++y)
    for (int x = 0; x < r.mask.cols; ++x)
      if (r.mask.at<uint8_t>(y, x)) {
        const Point p{double(r.box.x + x), double(r.box.y + y)};
        placed.emplace_back(dot(p - a.middle, along), p);
      }
  std::sort(placed.begin(), placed.end(),
            [](const auto& p, const auto& q) { return p.first < q.first; });
  std::vector<cv::Point2f> line;
  const double from = placed.front().first, length = placed.back().first - from;
  const int steps = std::max(1, static_cast<int>(std::lround(length / kStepPx)));
  size_t at = 0;
  for (int i = 0; i < steps; ++i) {
    Point sum;
    double count = 0;
    const double to = from + length * (i + 1) / steps;
    for (; at < placed.size() && (placed[at].first <= to || i == steps - 1); ++at, ++count)
      sum = sum + placed[at].second;
    if (count > 0)
      line.emplace_back(static_cast<float>(sum.x / count), static_cast<float>(sum.y / count));
  }
  const auto tip = [&](double t) {
    const Point p = a.middle + t * along;
    return cv::Point2f(static_cast<float>(p.x), static_cast<float>(p.y));
  };
  if (line.size() < 3)
    return {{{tip(from).x, tip(from).y}, {tip(from + length).x, tip(from + length).y}},
            std::max(1.0, r.areaPx / std::max(length, 1.0))};
  // Half a step is missing at either end: the line runs on straight.
  line.insert(line.begin(), line[0] + 0.5F * (line[0] - line[1]));
  line.push_back(line.back() + 0.5F * (line.back() - line[line.size() - 2]));
  return {simplified(line, false), std::max(1.0, r.areaPx / std::max(length, 1.0))};
}

Polygon polygonOf(const Region& r) {
  cv::Mat framed;
  cv::copyMakeBorder(r.mask, framed, 1, 1, 1, 1, cv::BORDER_CONSTANT, 0);
  // A border through pixel centres would lose half a pixel all round: outline twice the size.
  cv::resize(framed, framed, {}, 2, 2, cv::INTER_NEAREST);
  std::vector<std::vector<cv::Point>> outlines;
  cv::findContours(framed, outlines, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
  const auto longest = std::max_element(outlines.begin(), outlines.end(), [](auto& p, auto& q) {
    return cv::contourArea(p) < cv::contourArea(q);
  });
  std::vector<cv::Point2f> points;
  points.reserve(longest->size());
  for (const cv::Point p : *longest)
    points.emplace_back((static_cast<float>(p.x) - 0.5F) / 2 - 1 + static_cast<float>(r.box.x),
                        (static_cast<float>(p.y) - 0.5F) / 2 - 1 + static_cast<float>(r.box.y));
  Polygon out = simplified(points, true);
  if (signedArea(out) < 0) std::reverse(out.begin(), out.end());
  return out;
}

Point carriedPoint(Point p, const std::array<double, 6>& m) {
  return {m[0] * p.x + m[1] * p.y + m[2], m[3] * p.x + m[4] * p.y + m[5]};
}

}  // namespace

MarkShape shapeOf(const Region& region, RegionKind kind) {
  const Axes axes = axesOf(region);
  if (kind == RegionKind::crack) return lineOf(region, axes);
  const Ellipse ellipse = ellipseOf(axes);
  if (fitOf(ellipse, region) >= kFits) return ellipse;
  Polygon polygon = polygonOf(region);
  if (polygon.size() < 3 || !isSimple(polygon)) return ellipse;
  return polygon;
}

MarkShape carried(const MarkShape& shape, const std::array<double, 6>& m) {
  const double turned = m[0] * m[4] - m[1] * m[3], scale = std::sqrt(std::abs(turned));
  if (const auto* e = std::get_if<Ellipse>(&shape)) {
    const Point axis =
        carriedPoint(e->centre + Point{std::cos(e->angleRad), std::sin(e->angleRad)}, m) -
        carriedPoint(e->centre, m);
    return Ellipse{carriedPoint(e->centre, m), e->semiX * scale, e->semiY * scale,
                   std::atan2(axis.y, axis.x)};
  }
  if (const auto* s = std::get_if<Stroke>(&shape)) {
    Stroke out{{}, s->widthMm * scale};
    out.points.reserve(s->points.size());
    for (const Point p : s->points) out.points.push_back(carriedPoint(p, m));
    return out;
  }
  Polygon out;
  out.reserve(std::get<Polygon>(shape).size());
  for (const Point p : std::get<Polygon>(shape)) out.push_back(carriedPoint(p, m));
  if (turned < 0) std::reverse(out.begin(), out.end());
  return out;
}

}  // namespace rackside
