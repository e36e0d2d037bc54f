// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/cards/dark_quads.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "vision/cards/sample.h"

namespace rackside {
namespace {

// Window of the threshold: about a small code across, so that its black border (2 px) and the white
// around it balance.
constexpr int kThresholdWindowPx = 17;

double perimeterOf(const std::vector<cv::Point>& contour) {
  return static_cast<double>(contour.size());  // CHAIN_APPROX_NONE: one point a step
}

std::optional<Quad> quadOf(const std::vector<cv::Point>& contour, double leastSidePx) {
  std::vector<cv::Point> corners;
  const double perimeter = perimeterOf(contour);
  for (double share : {0.035, 0.06}) {
    cv::approxPolyDP(contour, corners, std::max(1.2, share * perimeter), true);
    if (corners.size() <= 4) break;
  }
  if (corners.size() != 4 || !cv::isContourConvex(corners)) return std::nullopt;
  double shortest = 1e9, longest = 0;
  for (size_t i = 0; i < 4; ++i) {
    const double side = cv::norm(corners[(i + 1) % 4] - corners[i]);
    shortest = std::min(shortest, side);
    longest = std::max(longest, side);
  }
  if (shortest < leastSidePx || longest > 4 * shortest) return std::nullopt;
  if (std::abs(cv::contourArea(corners)) < 0.3 * shortest * longest) return std::nullopt;
  const cv::Point a = corners[1] - corners[0], b = corners[2] - corners[1];
  if (a.x * b.y - a.y * b.x < 0) std::swap(corners[1], corners[3]);
  Quad quad;
  std::copy(corners.begin(), corners.end(), quad.begin());
  return quad;
}

// Where the profile from inside (dark) to outside (light) rises most, in px from the side.
std::optional<double> steepest(const cv::Mat& grey, cv::Point2d at, cv::Point2d outward,
                               double reachPx) {
  constexpr double step = 0.5;
  const int steps = static_cast<int>(reachPx / step);
  double best = 0, bestAt = 0, before = 0, after = 0, previous = 0;
  std::vector<double> rises;
  for (int i = -steps; i <= steps; ++i) {
    const double s = i * step;
    const double rise =
        sampleAt(grey, at + (s + 1) * outward) - sampleAt(grey, at + (s - 1) * outward);
    rises.push_back(rise);
    if (rise > best) {
      best = rise;
      bestAt = s;
      before = previous;
      after = -1;
    } else if (after < 0) {
      after = rise;
    }
    previous = rise;
  }
  if (best < 8 || after < 0 || bestAt <= -steps * step) return std::nullopt;
  const double bend = before - 2 * best + after;
  return bend < 0 ? bestAt + step * 0.5 * (before - after) / bend : bestAt;
}

struct Line {
  cv::Point2d point, direction;
};

std::optional<Line> edgeLine(const cv::Mat& grey, cv::Point2d from, cv::Point2d to,
                             double reachPx) {
  const cv::Point2d along = to - from;
  const double length = cv::norm(along);
  const cv::Point2d outward(along.y / length, -along.x / length);  // clockwise with y down
  std::vector<cv::Point2f> points;
  const int count = std::clamp(static_cast<int>(length / 1.5), 8, 32);
  for (int i = 0; i < count; ++i) {
    const cv::Point2d at = from + (0.1 + 0.8 * (i + 0.5) / count) * along;
    if (const auto s = steepest(grey, at, outward, reachPx)) points.push_back(at + *s * outward);
  }
  if (points.size() * 2 < static_cast<size_t>(count)) return std::nullopt;
  cv::Vec4f line;
  cv::fitLine(points, line, cv::DIST_HUBER, 0, 0.01, 0.01);
  return Line{{line[2], line[3]}, {line[0], line[1]}};
}

std::optional<cv::Point2d> crossing(const Line& a, const Line& b) {
  const double det = a.direction.x * b.direction.y - a.direction.y * b.direction.x;
  if (std::abs(det) < 0.1) return std::nullopt;
  const cv::Point2d gap = b.point - a.point;
  const double t = (gap.x * b.direction.y - gap.y * b.direction.x) / det;
  return a.point + t * a.direction;
}

}  // namespace

std::vector<Quad> darkQuads(const cv::Mat& grey, double leastSidePx, double leastContrast) {
  cv::Mat dark;
  cv::adaptiveThreshold(grey, dark, 255, cv::ADAPTIVE_THRESH_MEAN_C, cv::THRESH_BINARY_INV,
                        kThresholdWindowPx, leastContrast);
  std::vector<std::vector<cv::Point>> contours;
  cv::findContours(dark, contours, cv::RETR_LIST, cv::CHAIN_APPROX_NONE);
  std::vector<Quad> quads;
  for (const auto& contour : contours)
    if (perimeterOf(contour) >= 3 * leastSidePx)
      if (const auto quad = quadOf(contour, leastSidePx)) quads.push_back(*quad);
  return quads;
}

bool refineQuad(const cv::Mat& grey, double reachPx, Quad& quad) {
  std::array<Line, 4> lines;
  for (size_t i = 0; i < 4; ++i) {
    const auto line = edgeLine(grey, quad[i], quad[(i + 1) % 4], reachPx);
    if (!line) return false;
    lines[i] = *line;
  }
  Quad refined;
  for (size_t i = 0; i < 4; ++i) {
    const auto corner = crossing(lines[(i + 3) % 4], lines[i]);
    if (!corner || cv::norm(*corner - quad[i]) > 2.5 * reachPx) return false;
    refined[i] = *corner;
  }
  quad = refined;
  return true;
}

}  // namespace rackside
