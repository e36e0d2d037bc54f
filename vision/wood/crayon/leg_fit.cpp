// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/leg_fit.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <opencv2/imgproc.hpp>
#include <optional>

namespace rackside {
namespace {

using Points = std::vector<cv::Point2d>;
// The legs that stand on these points; nothing where the points make no such shape.
using Build = std::function<std::vector<Leg>(const Points&)>;

constexpr double kSharpestBendDeg = 22, kFlattestBendDeg = 140;
constexpr double kFlattestCrossDeg = 32;
constexpr double kEvenLegs = 0.25;  // of a bend: the shorter leg against the longer
constexpr int kDirections = 72;
constexpr int kStartsApartPx = 4;  // between the points that legs are tried from
constexpr size_t kRefined = 3;     // of those starts, the best
constexpr double kGapPx = 10;      // that an arm may skip

double angleDeg(cv::Point2d a, cv::Point2d b) {
  return std::abs(std::atan2(a.cross(b), a.dot(b))) * 180 / CV_PI;
}

class Scrawled {
 public:
  Scrawled(const cv::Mat& mask, double widthPx)
      : mask_(mask),
        trial_(cv::Mat::zeros(mask.size(), CV_8U)),
        thickness_(std::max(1, cvRound(widthPx))),
        area_(cv::countNonZero(mask)) {}

  const cv::Mat& mask() const { return mask_; }

  double agreement(const std::vector<Leg>& legs) {
    if (legs.empty()) return 0;
    trial_.setTo(0);
    for (const Leg& leg : legs)
      cv::line(trial_, cv::Point(leg.from), cv::Point(leg.to), 255, thickness_);
    const int drawn = cv::countNonZero(trial_);
    cv::bitwise_and(trial_, mask_, trial_);
    const int shared = cv::countNonZero(trial_);
    return double(shared) / std::max(1, drawn + area_ - shared);
  }

  // Moves one point at a time while that helps.
  LegFit refined(Points points, const Build& build) {
    double best = agreement(build(points));
    for (const double step : {6.0, 3.0, 1.5})
      for (int round = 0; round < 3; ++round)
        if (!improved(points, step, build, best)) break;
    return {build(points), best};
  }

 private:
  bool improved(Points& points, double step, const Build& build, double& best) {
    bool any = false;
    for (cv::Point2d& p : points)
      for (const cv::Point2d move : {cv::Point2d{step, 0}, {-step, 0}, {0, step}, {0, -step}}) {
        p += move;
        const double now = agreement(build(points));
        if (now > best)
          best = now, any = true;
        else
          p -= move;
      }
    return any;
  }

  cv::Mat mask_, trial_;
  int thickness_, area_;
};

struct Arm {
  int direction = 0;
  double reachPx = 0;
};

cv::Point2d tip(cv::Point2d from, const Arm& arm) {
  const double angle = 2 * CV_PI * arm.direction / kDirections;
  return from + arm.reachPx * cv::Point2d(std::cos(angle), std::sin(angle));
}

double reachOf(const cv::Mat& mask, cv::Point2d from, int direction) {
  const double angle = 2 * CV_PI * direction / kDirections, c = std::cos(angle),
               s = std::sin(angle);
  double last = 0;
  for (int r = 0; r <= last + kGapPx; ++r) {
    const int x = cvRound(from.x + r * c), y = cvRound(from.y + r * s);
    if (x < 0 || y < 0 || x >= mask.cols || y >= mask.rows) break;
    if (mask.at<uint8_t>(y, x)) last = r;
  }
  return last;
}

// The directions in which the scrawl reaches farthest, longest first, at least 42° apart: a leg of
// width w reaches 0.75 w that far off its own direction.
std::vector<Arm> armsFrom(const cv::Mat& mask, cv::Point2d from, size_t most) {
  std::vector<Arm> all(kDirections), arms;
  for (int i = 0; i < kDirections; ++i) all[size_t(i)] = {i, reachOf(mask, from, i)};
  std::stable_sort(all.begin(), all.end(),
                   [](const Arm& a, const Arm& b) { return a.reachPx > b.reachPx; });
  for (const Arm& a : all) {
    const bool apart = std::all_of(arms.begin(), arms.end(), [&](const Arm& other) {
      const int d = std::abs(a.direction - other.direction);
      return std::min(d, kDirections - d) * 360 >= 42 * kDirections;
    });
    if (apart) arms.push_back(a);
    if (arms.size() == most) break;
  }
  return arms;
}

std::vector<Leg> bendOn(const Points& p, double leastPx) {
  const Leg first{p[0], p[1]}, second{p[0], p[2]};
  const double angle = angleDeg(first.to - first.from, second.to - second.from);
  const double shorter = std::min(first.lengthPx(), second.lengthPx()),
               longer = std::max(first.lengthPx(), second.lengthPx());
  if (angle < kSharpestBendDeg || angle > kFlattestBendDeg || shorter < leastPx ||
      shorter < kEvenLegs * longer)
    return {};
  return {first, second};
}

std::vector<Leg> crossingOn(const Points& p, double leastPx) {
  const cv::Point2d a = p[1] - p[0], b = p[3] - p[2];
  const double turn = a.cross(b), angle = angleDeg(a, b);
  if (angle < kFlattestCrossDeg || angle > 180 - kFlattestCrossDeg) return {};
  const double s = (p[2] - p[0]).cross(b) / turn, t = (p[2] - p[0]).cross(a) / turn;
  for (const auto& [at, length] : {std::pair{s, cv::norm(a)}, {t, cv::norm(b)}})
    if (std::min(at, 1 - at) * length < leastPx) return {};
  return {{p[0], p[1]}, {p[2], p[3]}};
}

// The best of the fits that start from places spread over the scrawl.
LegFit bestFit(Scrawled& scrawl, const Build& build,
               const std::function<std::optional<Points>(cv::Point2d)>& startAt) {
  std::vector<std::pair<double, Points>> starts;
  const cv::Mat& mask = scrawl.mask();
  for (int y = 0; y < mask.rows; y += kStartsApartPx)
    for (int x = 0; x < mask.cols; x += kStartsApartPx) {
      if (!mask.at<uint8_t>(y, x)) continue;
      const auto points = startAt(cv::Point2d(x, y));
      if (!points) continue;
      const double agreement = scrawl.agreement(build(*points));
      if (agreement > 0) starts.emplace_back(agreement, *points);
    }
  std::stable_sort(starts.begin(), starts.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  if (starts.size() > kRefined) starts.resize(kRefined);
  LegFit best;
  for (const auto& [agreement, points] : starts) {
    LegFit fit = scrawl.refined(points, build);
    if (fit.agreement > best.agreement) best = std::move(fit);
  }
  return best;
}

}  // namespace

LegFit fitOneLeg(const cv::Mat& mask, double widthPx) {
  const cv::Moments m = cv::moments(mask, true);
  if (m.m00 <= 0) return {};
  const double xx = m.mu20 / m.m00, yy = m.mu02 / m.m00, xy = m.mu11 / m.m00;
  const double angle = 0.5 * std::atan2(2 * xy, xx - yy);
  // Of an even bar, the half length is √3 standard deviations.
  const double half = std::sqrt(3 * ((xx + yy) / 2 + std::hypot((xx - yy) / 2, xy)));
  const cv::Point2d middle(m.m10 / m.m00, m.m01 / m.m00),
      way(std::cos(angle) * half, std::sin(angle) * half);
  Scrawled scrawl(mask, widthPx);
  return scrawl.refined({middle - way, middle + way}, [](const Points& p) {
    return std::vector<Leg>{{p[0], p[1]}};
  });
}

LegFit fitBend(const cv::Mat& mask, double widthPx, double leastPx) {
  Scrawled scrawl(mask, widthPx);
  return bestFit(
      scrawl, [=](const Points& p) { return bendOn(p, leastPx); },
      [&](cv::Point2d at) -> std::optional<Points> {
        const auto arms = armsFrom(mask, at, 2);
        if (arms.size() < 2) return std::nullopt;
        return Points{at, tip(at, arms[0]), tip(at, arms[1])};
      });
}

LegFit fitCrossing(const cv::Mat& mask, double widthPx, double leastPx) {
  Scrawled scrawl(mask, widthPx);
  return bestFit(
      scrawl, [=](const Points& p) { return crossingOn(p, leastPx); },
      [&](cv::Point2d at) -> std::optional<Points> {
        auto arms = armsFrom(mask, at, 4);
        if (arms.size() < 4) return std::nullopt;
        std::sort(arms.begin(), arms.end(),
                  [](const Arm& a, const Arm& b) { return a.direction < b.direction; });
        return Points{tip(at, arms[0]), tip(at, arms[2]), tip(at, arms[1]), tip(at, arms[3])};
      });
}

}  // namespace rackside
