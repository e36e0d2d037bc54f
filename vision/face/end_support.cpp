// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/end_support.h"

#include <algorithm>

namespace rackside {
namespace {

constexpr double kCoreMm = 45;             // about coreY, the end is believed to be the board's
constexpr double kFromMm = 2, kToMm = 11;  // bands compared, to either side of the end
constexpr double kLooseMm = 4.5;           // the end may be off the straight line by that much
constexpr double kFaintLab = 5;            // a fainter end tells nothing
// Of the core's step, to count as the same end; or so often the steps of the ground, where those
// are small: a pale sapwood's end on a pale bench is fainter than the heartwood's.
constexpr double kShareOfCore = 0.35, kTimesGround = 2.5, kGroundQuantile = 0.8;
constexpr double kGapMm = 14;      // the end stops where it is missing for that long
constexpr double kBeyondMm = 150;  // looked at past the corners
constexpr double kQuiet = 0.35;    // most of that must be without a step

struct EndLine {
  double x0 = 0, slope = 0;  // x = x0 + slope (y - coreY)
};

double quantileOf(std::vector<double> v, double share) {
  const auto at = v.begin() + std::ptrdiff_t(share * double(v.size() - 1));
  std::nth_element(v.begin(), at, v.end());
  return *at;
}

double medianOf(std::vector<double> v) {
  return quantileOf(std::move(v), 0.5);
}

EndLine endLine(const RoughSide& end, double coreY) {
  std::vector<Point> core;
  for (const Point& p : end.line)
    if (std::abs(p.y - coreY) < kCoreMm) core.push_back(p);
  if (core.size() < 4) core = end.line;
  std::vector<double> slopes, offsets;
  for (size_t i = 0, half = core.size() / 2; i + half < core.size() && half > 0; ++i)
    slopes.push_back((core[i + half].x - core[i].x) / (core[i + half].y - core[i].y));
  EndLine line;
  line.slope = slopes.empty() ? 0 : std::clamp(medianOf(slopes), -0.15, 0.15);
  for (const Point& p : core) offsets.push_back(p.x - line.slope * (p.y - coreY));
  line.x0 = medianOf(offsets);
  return line;
}

// Mean colour of a row between two places; false where too little of it is usable.
bool bandMean(const AxisFace& axis, int row, double from, double to, cv::Vec3d& mean) {
  const int a = std::max(0, axis.column(std::min(from, to)));
  const int b = std::min(axis.lab.cols - 1, axis.column(std::max(from, to)));
  int n = 0;
  mean = {};
  for (int x = a; x <= b; ++x)
    if (axis.face.usable.at<uchar>(row, x)) mean += cv::Vec3d(axis.lab.at<cv::Vec3b>(row, x)), ++n;
  if (n < 3) return false;
  mean /= n;
  return true;
}

// Step of colour over the end, for each row of the axis picture, averaged over a few rows; negative
// where nothing can be seen.
std::vector<double> stepsAlong(const AxisFace& axis, const EndLine& line, double coreY,
                               double outward) {
  const int rows = axis.lab.rows, half = 4;
  std::vector<double> best(size_t(rows), -1.0);
  const int loose = int(kLooseMm / kCellFineMm);
  for (int k = -loose; k <= loose; ++k) {
    const double shift = k * kCellFineMm;
    std::vector<cv::Vec3d> sum(size_t(rows) + 1);
    std::vector<int> count(size_t(rows) + 1, 0);
    for (int j = 0; j < rows; ++j) {
      const double y = axis.region.y0 + (j + 0.5) * kCellFineMm;
      const double x = line.x0 + line.slope * (y - coreY) + shift;
      cv::Vec3d in, out;
      const bool seen = bandMean(axis, j, x - outward * kToMm, x - outward * kFromMm, in) &&
                        bandMean(axis, j, x + outward * kFromMm, x + outward * kToMm, out);
      sum[size_t(j) + 1] = sum[size_t(j)] + (seen ? out - in : cv::Vec3d());
      count[size_t(j) + 1] = count[size_t(j)] + seen;
    }
    for (int j = 0; j < rows; ++j) {
      const size_t a = size_t(std::max(0, j - half)), b = size_t(std::min(rows, j + half + 1));
      const int n = count[b] - count[a];
      if (n < half) continue;
      const cv::Vec3d d = (sum[b] - sum[a]) / n;
      best[size_t(j)] =
          std::max(best[size_t(j)], std::sqrt(d[0] * d[0] + 2 * (d[1] * d[1] + d[2] * d[2])));
    }
  }
  return best;
}

// From the core outwards to where the step is missing.
int lastWith(const std::vector<double>& steps, int from, int direction, double threshold) {
  const int gap = int(kGapMm / kCellFineMm), n = int(steps.size());
  int last = from;
  for (int j = from; j >= 0 && j < n && std::abs(j - last) <= gap; j += direction)
    if (steps[size_t(j)] >= threshold || steps[size_t(j)] < 0) last = j;
  return last;
}

double shareBeyond(const std::vector<double>& steps, int from, int direction, double threshold) {
  const int length = int(kBeyondMm / kCellFineMm), n = int(steps.size());
  int all = 0, with = 0;
  for (int k = int(kGapMm / kCellFineMm); k < length; ++k) {
    const int j = from + direction * k;
    if (j < 0 || j >= n || steps[size_t(j)] < 0) continue;
    ++all;
    with += steps[size_t(j)] >= threshold;
  }
  return all > 10 ? double(with) / all : 0;
}

struct Reach {
  int low = 0, high = 0;  // rows
};

// Steps as large as the ground has, past the end and clear of it; 0 where too little is seen there.
double groundSteps(const std::vector<double>& steps, Reach end) {
  const int clear = int(2 * kGapMm / kCellFineMm);
  std::vector<double> ground;
  for (int j = 0; j < int(steps.size()); ++j)
    if ((j < end.low - clear || j > end.high + clear) && steps[size_t(j)] >= 0)
      ground.push_back(steps[size_t(j)]);
  return ground.size() < 40 ? 0 : quantileOf(std::move(ground), kGroundQuantile);
}

Reach reachOf(const std::vector<double>& steps, int core, double threshold) {
  return {lastWith(steps, core, -1, threshold), lastWith(steps, core, 1, threshold)};
}

}  // namespace

std::optional<EndSpan> endSpan(const AxisFace& axis, const RoughSide& end, double coreY) {
  const double outward = end.side == Side::right ? 1 : -1;
  const EndLine line = endLine(end, coreY);
  const std::vector<double> steps = stepsAlong(axis, line, coreY, outward);
  const int core = axis.row(coreY), reach = int(25 / kCellFineMm);
  std::vector<double> middle;
  for (int j = std::max(0, core - reach); j <= std::min(axis.lab.rows - 1, core + reach); ++j)
    if (steps[size_t(j)] >= 0) middle.push_back(steps[size_t(j)]);
  if (middle.size() < 8) return std::nullopt;
  const double typical = medianOf(middle);
  if (typical < kFaintLab) return std::nullopt;
  double threshold = std::max(kFaintLab * 0.7, kShareOfCore * typical);
  Reach reached = reachOf(steps, core, threshold);
  if (const double ground = groundSteps(steps, reached); ground > 0) {
    threshold = std::clamp(kTimesGround * ground, kFaintLab * 0.7, threshold);
    reached = reachOf(steps, core, threshold);
  }
  if (shareBeyond(steps, reached.low, -1, threshold) > kQuiet ||
      shareBeyond(steps, reached.high, 1, threshold) > kQuiet)
    return std::nullopt;
  return EndSpan{axis.region.y0 + reached.low * kCellFineMm,
                 axis.region.y0 + (reached.high + 1) * kCellFineMm};
}

}  // namespace rackside
