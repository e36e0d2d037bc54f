// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/follow_edge.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "vision/face/border_path.h"
#include "vision/face/offset_smoother.h"

namespace rackside {
namespace {

constexpr double kAlongMm = 2, kAcrossMm = 0.4;  // cells of the band about the straight line
constexpr double kAverageAlongMm = 8;            // of colours, to tell the edge from the grain
constexpr double kBandMm = 2;                    // compared to either side
constexpr double kLeastReachMm = 6, kReachShare = 0.25;  // of the distance between the ends
constexpr double kStepCostPerMm = 0.7;
constexpr double kFaintLab = 3;                         // a fainter step is none
constexpr double kEndSigmaMm = 0.3, kBlindSigmaMm = 2;  // of a click; where no edge is seen
constexpr float kPinned = 1e4f;

struct Band {   // rows across, from the right of the line to its left; columns along
  cv::Mat lab;  // CV_32FC3
  Point from, along, left;
  int middle = 0;
  Point at(double column, double row) const {
    return from + (column * kAlongMm) * along + ((row - middle) * kAcrossMm) * left;
  }
};

cv::Point2f pictureFromBoard(const std::array<double, 6>& m, Point p) {
  const double x = p.x - m[2], y = p.y - m[5], det = m[0] * m[4] - m[1] * m[3];
  return {float((m[4] * x - m[1] * y) / det), float((m[0] * y - m[3] * x) / det)};
}

Band bandBetween(const cv::Mat& bgr, const std::array<double, 6>& boardFromPicture, Point from,
                 Point to, double reachMm) {
  Band band;
  const double length = norm(to - from);
  band.from = from;
  band.along = (1 / length) * (to - from);
  band.left = {-band.along.y, band.along.x};
  band.middle = int(reachMm / kAcrossMm);
  const cv::Size size(int(std::lround(length / kAlongMm)) + 1, 2 * band.middle + 1);
  cv::Mat map(size, CV_32FC2), colours;
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x)
      map.at<cv::Point2f>(y, x) = pictureFromBoard(boardFromPicture, band.at(x, y));
  cv::remap(bgr, colours, map, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
  cv::cvtColor(colours, colours, cv::COLOR_BGR2Lab);
  colours.convertTo(band.lab, CV_32FC3);
  const int window = int(kAverageAlongMm / kAlongMm) | 1;
  cv::blur(band.lab, band.lab, {window, 1}, {-1, -1}, cv::BORDER_REPLICATE);
  return band;
}

// The step of colour across each row, in Lab steps.
cv::Mat stepsAcross(const Band& band) {
  const int width = int(kBandMm / kAcrossMm);
  cv::Mat sums;
  cv::boxFilter(band.lab, sums, CV_32F, {1, width}, {-1, -1}, true, cv::BORDER_REPLICATE);
  cv::Mat steps = cv::Mat::zeros(band.lab.size(), CV_32F);
  const int half = width / 2 + 1;
  for (int y = half; y + half < steps.rows; ++y)
    for (int x = 0; x < steps.cols; ++x) {
      const cv::Vec3f d = sums.at<cv::Vec3f>(y + half, x) - sums.at<cv::Vec3f>(y - half, x);
      steps.at<float>(y, x) = std::sqrt(d.dot(d));
    }
  return steps;
}

// Cheap where the step is strong for this picture; the ends are where the maker clicked.
cv::Mat costsOf(const cv::Mat& steps, int middle) {
  const double usual = std::max(kFaintLab, cv::mean(steps)[0]);
  cv::Mat cost(steps.size(), CV_32F);
  for (int y = 0; y < steps.rows; ++y)
    for (int x = 0; x < steps.cols; ++x) {
      const double t = steps.at<float>(y, x) / usual;
      cost.at<float>(y, x) = -float(std::log(1 + t * t));
    }
  for (const int x : {0, steps.cols - 1})
    for (int y = 0; y < steps.rows; ++y)
      if (y != middle) cost.at<float>(y, x) = kPinned;
  return cost;
}

OffsetReading readingAt(const cv::Mat& steps, int x, int row, int middle) {
  const int y = std::clamp(row, 1, steps.rows - 2);
  const float a = steps.at<float>(y - 1, x), b = steps.at<float>(y, x),
              c = steps.at<float>(y + 1, x);
  const float curve = a - 2 * b + c;
  const double part =
      curve < -1e-6f ? std::clamp(0.5 * double(a - c) / double(curve), -0.5, 0.5) : 0;
  OffsetReading reading{(y + part - middle) * kAcrossMm, 0};
  // A step of a few times the faintest is placed to about a cell; neighbours share their colours.
  if (b > kFaintLab) reading.sigmaMm = 2 * kAcrossMm * std::max(0.5, 3 * kFaintLab / double(b));
  return reading;
}

}  // namespace

std::vector<FollowedPoint> followEdge(const cv::Mat& bgr,
                                      const std::array<double, 6>& boardFromPicture, Point from,
                                      Point to, const FollowOptions& options) {
  const double length = norm(to - from);
  if (bgr.empty() || length < 2 * options.stepMm) return {};
  const double reach = std::min(options.reachMm, std::max(kLeastReachMm, kReachShare * length));
  const Band band = bandBetween(bgr, boardFromPicture, from, to, reach);
  const cv::Mat steps = stepsAcross(band);
  BorderPathOptions pathOptions;
  pathOptions.stepCost = kStepCostPerMm * kAcrossMm;
  pathOptions.farthest = 0;
  const BorderPath path = cheapestBorder(costsOf(steps, band.middle), pathOptions);
  std::vector<OffsetReading> readings;
  for (int x = 0; x < steps.cols; ++x)
    readings.push_back(readingAt(steps, x, path.row[size_t(x)], band.middle));
  readings.front() = readings.back() = {0, kEndSigmaMm};
  const std::vector<SmoothOffset> line = smoothOffsets(readings, kAlongMm);
  std::vector<FollowedPoint> points;
  const int count = int(length / options.stepMm);
  for (int i = 1; i < count; ++i) {
    const size_t x = std::min(line.size() - 1, size_t(std::lround(i * length / count / kAlongMm)));
    const Point at = band.at(double(x), band.middle + line[x].offsetMm / kAcrossMm);
    const bool blind = readings[x].sigmaMm <= 0;
    points.push_back({at, blind ? std::max(kBlindSigmaMm, line[x].sigmaMm) : line[x].sigmaMm});
  }
  return points;
}

}  // namespace rackside
