// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/line_directions.h"

#include <numbers>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr int kBins = 360;  // of half a degree, over half a turn
constexpr double kBinRad = std::numbers::pi / kBins;

}  // namespace

double wrapHalfTurn(double a) {
  while (a > std::numbers::pi / 2) a -= std::numbers::pi;
  while (a <= -std::numbers::pi / 2) a += std::numbers::pi;
  return a;
}

std::pair<Point, Point> farthestPair(const std::vector<Point>& middles) {
  std::pair<Point, Point> best{middles.front(), middles.front()};
  for (const Point& a : middles)
    for (const Point& b : middles)
      if (norm(b - a) > norm(best.second - best.first)) best = {a, b};
  return best;
}

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
    const double score =
        (bins[size_t(i)] + 0.2 * mean) * (1 - trust + trust * std::exp(-off * off / 2));
    if (score > best) best = score, at = angle;
  }
  return at;
}

}  // namespace rackside
