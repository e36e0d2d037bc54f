// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/board_axis.h"

#include <algorithm>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "vision/face/bench_strip.h"

namespace rackside {
namespace {

constexpr double kMmPerPx = 4;
constexpr double kReachMm = 3500;       // boards beyond that do not fit a photograph
constexpr double kGrainReachMm = 130;   // grain is read that far from the cards
constexpr double kLongBaseMm = 400;     // cards that far apart give the direction by themselves
constexpr int kBins = 360;              // of half a degree, over half a turn
constexpr double kBinRad = std::numbers::pi / kBins;

double wrapHalfTurn(double a) {
  while (a > std::numbers::pi / 2) a -= std::numbers::pi;
  while (a <= -std::numbers::pi / 2) a += std::numbers::pi;
  return a;
}

// The two cards farthest apart.
std::pair<Point, Point> farthestPair(const std::vector<Point>& middles) {
  std::pair<Point, Point> best{middles.front(), middles.front()};
  for (const Point& a : middles)
    for (const Point& b : middles)
      if (norm(b - a) > norm(best.second - best.first)) best = {a, b};
  return best;
}

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

// How much line lies along each direction, by the gradients of a region. Long grain and straight
// sides make one narrow peak.
std::vector<double> lineDirections(const CoarseFace& face, const cv::Mat& where) {
  cv::Mat grey, gx, gy;
  cv::cvtColor(face.bgr, grey, cv::COLOR_BGR2GRAY);
  cv::Sobel(grey, gx, CV_32F, 1, 0);
  cv::Sobel(grey, gy, CV_32F, 0, 1);
  std::vector<double> bins(kBins, 0.0), smooth(kBins, 0.0);
  for (int y = 0; y < grey.rows; ++y)
    for (int x = 0; x < grey.cols; ++x) {
      if (!where.at<uchar>(y, x)) continue;
      const double dx = gx.at<float>(y, x), dy = gy.at<float>(y, x);
      const double along = wrapHalfTurn(std::atan2(dy, dx) + std::numbers::pi / 2);
      bins[size_t((along + std::numbers::pi / 2) / kBinRad) % kBins] +=
          std::min(200.0, std::hypot(dx, dy));
    }
  for (int i = 0; i < kBins; ++i)
    for (int d = -4; d <= 4; ++d)
      smooth[size_t(i)] += bins[size_t((i + d + kBins) % kBins)] * (5 - std::abs(d));
  return smooth;
}

double peakDirection(const std::vector<double>& bins, double expected, double spreadRad,
                     double trust) {
  double best = -1, at = expected;
  double mean = 0;
  for (double b : bins) mean += b / kBins;
  for (int i = 0; i < kBins; ++i) {
    const double angle = -std::numbers::pi / 2 + (i + 0.5) * kBinRad;
    const double off = wrapHalfTurn(angle - expected) / spreadRad;
    const double score = (bins[size_t(i)] + 0.2 * mean) * (1 - trust + trust * std::exp(-off * off / 2));
    if (score > best) best = score, at = angle;
  }
  return at;
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
  const auto [a, b] = farthestPair(middles);
  const Pose level{middles.front(), 0};
  CoarseFace face =
      coarseFace(views, rasterOver(seenBox(views, level, kReachMm), level, kMmPerPx, true));
  if (views.cardsOn == CardsOn::bench) return guessBesideCards(views, face);
  const bool wide = norm(b - a) > kLongBaseMm;
  const double card = views.adjustment->planeFromCard(views.cards.front())->angleRad;
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
