// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/board_axis.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "vision/face/bench_strip.h"
#include "vision/face/line_directions.h"

namespace rackside {
namespace {

constexpr double kMmPerPx = 4;
constexpr double kReachMm = 3500;      // boards beyond that do not fit a photograph
constexpr double kGrainReachMm = 130;  // grain is read that far from the cards
constexpr double kLongBaseMm = 400;    // cards that far apart give the direction by themselves

cv::Mat nearCards(const CoarseFace& face, const std::vector<Point>& middles) {
  cv::Mat near = cv::Mat::zeros(face.raster.size, CV_8U);
  std::vector<cv::Point> line;
  for (const Point& m : middles) line.push_back(face.raster.pixel(m));
  std::sort(line.begin(), line.end(), [](auto a, auto b) { return a.x + a.y < b.x + b.y; });
  if (line.size() == 1) line.push_back(line[0]);
  cv::polylines(near, line, false, 255, int(2 * kGrainReachMm / kMmPerPx));
  cv::Mat clear;
  cv::erode(face.usable, clear, cv::Mat::ones(5, 5, CV_8U));
  return near & clear;
}

}  // namespace

Rect seenBox(const FaceViews& views, const Pose& planeFromFrame, double reachMm) {
  const std::vector<Point> middles = cardMiddles(views);
  Point around;
  for (const Point& m : middles) around = around + (1.0 / double(middles.size())) * m;
  const Pose& pose = planeFromFrame;
  const double c = std::cos(pose.angleRad), s = std::sin(pose.angleRad);
  Polygon all;
  for (size_t p = 0; p < views.photos.size(); ++p)
    for (const Point& q :
         footprint(*views.adjustment, p, views.photos[p].level(0).size(), around, reachMm)) {
      const Point d = q - pose.origin;
      all.push_back({c * d.x + s * d.y, -s * d.x + c * d.y});
    }
  return all.empty() ? Rect{} : bounds(all);
}

Result<AxisGuess> guessAxis(FaceViews& views) {
  const std::vector<Point> middles = cardMiddles(views);
  if (middles.empty())
    return Error{"No card was placed on the plane, so the board cannot be looked for."};
  if (views.cardsOn == CardsOn::bench) return guessBesideCards(views);
  const auto [a, b] = farthestPair(middles);
  const Pose level{middles.front(), 0};
  CoarseFace face =
      coarseFace(views, rasterOver(seenBox(views, level, kReachMm), level, kMmPerPx, true));
  const bool wide = norm(b - a) > kLongBaseMm;
  const double card = views.cards.front().angleRad;
  const double expected = wide ? std::atan2((b - a).y, (b - a).x) : wrapHalfTurn(card);
  const auto bins = lineDirections(face, nearCards(face, middles));
  const double angle = peakDirection(bins, expected, wide ? 0.05 : 0.12, wide ? 1.0 : 0.6);
  AxisGuess guess;
  guess.planeFromAxis = {middles.front(), angle};
  const double c = std::cos(angle), s = std::sin(angle);
  for (const Point& m : middles) {
    const Point d = m - middles.front();
    guess.middle.push_back({c * d.x + s * d.y, -s * d.x + c * d.y});
  }
  std::sort(guess.middle.begin(), guess.middle.end(), [](Point p, Point q) { return p.x < q.x; });
  return guess;
}

}  // namespace rackside
