// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/refine_edge.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "vision/face/edge_ribbon.h"
#include "vision/face/smooth_line.h"

namespace rackside {
namespace {

constexpr double kReachMm = 8;           // of the ribbon to either side of the rough line
constexpr double kAverageAlongMm = 9;    // rows averaged, to tell the side from noise and grain
constexpr double kContrastAlongMm = 90;  // over which inside and outside are compared
constexpr double kNarrowWallMm = 1.2;    // a narrower wall cannot be told from the side itself
constexpr double kSureGain = 1.2;        // that speaks for the rough path at all, see boundary.h
constexpr double kSureMargin = 0.5;      // of the rough path against its rivals, see boundary.h
constexpr double kLeastSnr = 4;          // of the step against noise, to be sure of it
constexpr double kBridgeSigmaMm = 0.35, kBridgeSigmaPerMm = 0.003;

// A place for which much speaks may have a nearer rival.
bool clearChoice(double margin, double gain) {
  return (margin >= kSureMargin && gain >= kSureGain) ||
         (margin >= kSureMargin / 2 && gain >= 2.5 * kSureGain);
}

bool isLong(Side s) {
  return s == Side::lower || s == Side::upper;
}

struct Guide {  // the rough side, resampled
  std::vector<Point> line, outward;
  std::vector<double> margin, gain;
  std::vector<bool> hidden;
};

// The rough path without its one-cell steps, sampled evenly.
Guide guideOf(const RoughSide& side, double from, double to) {
  const bool along = isLong(side.side);
  std::vector<Point> path;  // (along, across)
  std::vector<bool> keep;
  for (size_t i = 0; i < side.line.size(); ++i) {
    const Point p = side.line[i];
    path.push_back(along ? p : Point{p.y, p.x});
    keep.push_back(!side.columns[i].hidden);
  }
  path = smoothed(path, keep);
  Guide g;
  const double sign = side.side == Side::upper || side.side == Side::right ? 1 : -1;
  for (double a = from; a <= to; a += kEdgeStepMm) {
    const double c = interpolate(path, a);
    const double slope = (interpolate(path, a + 8) - interpolate(path, a - 8)) / 16;
    Point out{-slope * sign, sign};
    out = (1 / norm(out)) * out;
    g.line.push_back(along ? Point{a, c} : Point{c, a});
    g.outward.push_back(along ? out : Point{out.y, out.x});
    const double step = path.size() > 1 ? path[1].x - path[0].x : 1;
    const size_t n = size_t(std::clamp(int((a - path[0].x) / step + 0.5), 0, int(path.size()) - 1));
    g.margin.push_back(side.columns[n].margin);
    g.gain.push_back(side.columns[n].gain);
    g.hidden.push_back(side.columns[n].hidden);
  }
  return g;
}

cv::Mat averagedAlong(const cv::Mat& light, double mm) {
  cv::Mat out;
  cv::blur(light, out, {1, int(mm / kEdgeStepMm) | 1}, {-1, -1}, cv::BORDER_REPLICATE);
  return out;
}

// Mean colour of columns [from, to) mm from the line, each row.
cv::Mat bandMean(const EdgeRibbon& r, const cv::Mat& light, int row, double from, double to) {
  const int a = std::clamp(r.middle + int(std::lround(from / r.stepMm)), 0, light.cols - 1);
  const int b = std::clamp(r.middle + int(std::lround(to / r.stepMm)), a + 1, light.cols);
  cv::Mat mean;
  cv::reduce(light(cv::Range(row, row + 1), cv::Range(a, b)), mean, 1, cv::REDUCE_AVG);
  return mean;
}

// From the face to what lies next to it (the wall where it shows), averaged over a length.
cv::Mat contrastDirections(const EdgeRibbon& r, const cv::Mat& light) {
  cv::Mat direction(light.rows, 1, CV_32FC3);
  for (int i = 0; i < light.rows; ++i) {
    const double wall = r.rows[size_t(i)].wallMm;
    const double near = 1.5, far = wall > 2 * near + 1 ? std::min(6.0, wall) : 6.0;
    cv::Mat d = bandMean(r, light, i, near, far) - bandMean(r, light, i, -6, -near);
    direction.at<cv::Vec3f>(i, 0) = d.at<cv::Vec3f>(0, 0);
  }
  cv::Mat averaged;
  cv::blur(direction, averaged, {1, int(kContrastAlongMm / kEdgeStepMm) | 1}, {-1, -1},
           cv::BORDER_REPLICATE);
  return averaged;
}

// Steepness of the expected step at every place of the ribbon, as a share of its whole height.
cv::Mat steepness(const EdgeRibbon& r, const cv::Mat& light, const cv::Mat& direction) {
  cv::Mat scalar(light.size(), CV_32F), slope;
  for (int i = 0; i < light.rows; ++i) {
    const cv::Vec3f v = direction.at<cv::Vec3f>(i, 0);
    const float height = std::max(1e-4f, v.dot(v));
    for (int k = 0; k < light.cols; ++k)
      scalar.at<float>(i, k) = light.at<cv::Vec3f>(i, k).dot(v) / height;
  }
  const double sigma = std::max(0.8, 0.7 * r.rows[r.rows.size() / 2].mmPerPx / r.stepMm);
  cv::GaussianBlur(scalar, scalar, {0, 0}, sigma, 0.1, cv::BORDER_REPLICATE);
  cv::Sobel(scalar, slope, CV_32F, 1, 0, 1, 0.5, 0, cv::BORDER_REPLICATE);
  return slope / r.stepMm;  // per mm
}

// The path of greatest steepness from end to end; a step aside costs.
std::vector<int> steepestPath(const EdgeRibbon& r, const cv::Mat& slope) {
  const int n = slope.rows, m = slope.cols;
  const float stiff = float(0.25 * r.stepMm);
  cv::Mat total = cv::Mat::zeros(slope.size(), CV_32F), from = cv::Mat::zeros(slope.size(), CV_8S);
  for (int i = 0; i < n; ++i)
    for (int k = 0; k < m; ++k) {
      float best = i ? -1e30f : 0;
      if (i)
        for (int d = -2; d <= 2; ++d) {
          if (k + d < 0 || k + d >= m) continue;
          const float t = total.at<float>(i - 1, k + d) - stiff * float(std::abs(d));
          if (t > best) best = t, from.at<schar>(i, k) = schar(d);
        }
      const float far = float(std::abs(k - r.middle) * r.stepMm / kReachMm);
      const bool blind = r.rows[size_t(i)].hidden || !r.rows[size_t(i)].seen;
      const float gain = blind ? 0 : std::min(1.0f, std::max(-0.3f, slope.at<float>(i, k)));
      total.at<float>(i, k) = best + gain - 0.05f * far * far;
    }
  std::vector<int> path(static_cast<size_t>(n));
  int k = 0;
  for (int j = 1; j < m; ++j)
    if (total.at<float>(n - 1, j) > total.at<float>(n - 1, k)) k = j;
  for (int i = n - 1; i >= 0; --i) {
    path[size_t(i)] = k;
    k += from.at<schar>(i, k);
  }
  return path;
}

// Offset of the steepest place near column k, to a fraction of a column.
double peakNear(const cv::Mat& slope, int row, int k, int reach, float& height) {
  int best = k;
  for (int j = std::max(1, k - reach); j <= std::min(slope.cols - 2, k + reach); ++j)
    if (slope.at<float>(row, j) > slope.at<float>(row, best)) best = j;
  best = std::clamp(best, 1, slope.cols - 2);
  const float a = slope.at<float>(row, best - 1), b = slope.at<float>(row, best),
              c = slope.at<float>(row, best + 1);
  height = b;
  const float curve = a - 2 * b + c;
  return curve < -1e-9f ? best + std::clamp(0.5 * double(a - c) / double(curve), -1.0, 1.0) : best;
}

// Noise of the steepness in the wood beside the edge.
double noiseOf(const cv::Mat& slope, int row, int k, const EdgeRibbon& r) {
  double sum = 0;
  int n = 0;
  const int inner = k - int(2 / r.stepMm);
  for (int i = std::max(0, row - 20); i <= std::min(slope.rows - 1, row + 20); i += 4)
    for (int j = std::max(0, inner - int(4 / r.stepMm)); j < inner; j += 2)
      sum += double(slope.at<float>(i, j)) * double(slope.at<float>(i, j)), ++n;
  return n ? std::sqrt(sum / n) : 1;
}

}  // namespace

std::vector<EdgePoint> refineSide(FaceViews& views, const RoughOutline& outline,
                                  const RoughSide& side, double from, double to) {
  const Guide guide = guideOf(side, from, to);
  const EdgeRibbon ribbon = edgeRibbon(views, outline.axis, guide.line, guide.outward, kReachMm);
  const cv::Mat light = averagedAlong(ribbon.light, kAverageAlongMm);
  const cv::Mat slope = steepness(ribbon, light, contrastDirections(ribbon, light));
  const std::vector<int> path = steepestPath(ribbon, slope);
  std::vector<double> offset, weight;
  for (int i = 0; i < slope.rows; ++i) {
    const RibbonRow& row = ribbon.rows[size_t(i)];
    float height = 0;
    const double k = peakNear(slope, i, path[size_t(i)], int(row.mmPerPx / ribbon.stepMm), height);
    offset.push_back((k - ribbon.middle) * ribbon.stepMm);
    const double snr = height / std::max(1e-6, noiseOf(slope, i, path[size_t(i)], ribbon));
    weight.push_back(row.hidden || guide.hidden[size_t(i)] || !row.seen ? 0 : snr);
  }
  const SmoothOffsets smooth = smoothOffsets(offset, weight, kEdgeStepMm);
  std::vector<EdgePoint> points;
  for (size_t i = 0; i < offset.size(); ++i) {
    EdgePoint p;
    const RibbonRow& row = ribbon.rows[i];
    p.at = row.at + smooth.offset[i] * row.outward;
    // A wall too narrow to be told apart shifts the steepest place by up to half of its width.
    const double wall = row.wallMm < 2 * row.mmPerPx ? row.wallMm / 4 : 0;
    p.sigmaMm = std::hypot(smooth.sigma[i], 0.12 * row.mmPerPx, wall);
    if (weight[i] <= 0) {
      p.state = EdgeState::bridged;
      p.sigmaMm = std::hypot(p.sigmaMm, kBridgeSigmaMm + kBridgeSigmaPerMm * smooth.gapMm[i]);
    } else if (!clearChoice(guide.margin[i], guide.gain[i]) || weight[i] < kLeastSnr ||
               std::abs(smooth.offset[i]) > 0.6 * kReachMm) {
      p.state = EdgeState::unsure;
      p.sigmaMm = std::max(p.sigmaMm, 1.5);
    }
    points.push_back(p);
  }
  return points;
}

}  // namespace rackside
