// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/arris_reading.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr double kAverageAlongMm = 6;            // of rows, to tell the arris from noise and grain
constexpr double kContrastAlongMm = 75;          // over which inside and outside are compared
constexpr double kClearMm = 0.8, kBandMm = 4.5;  // bands compared begin and end so far off
constexpr double kSearchMm = 1.5;                // from where the arris should be
constexpr double kLeastSnr = 1.5;                // of a reading worth having
constexpr double kPixelFloor = 0.06;             // of a reading, in pixels
// A soft shadow that begins at the arris moves the steepest place outward. It is read apart from
// shade on the ground when that lies so much farther in, and no wall shows between. (On rendered
// scenes without such a shadow the two readings of a side were 0.25 mm apart at most.)
constexpr double kNoWallMm = 0.3, kShadowMm = 0.35;
constexpr float kShade = 0.5F;
constexpr float kLightNoise = 0.004f;  // of linear light after averaging

int columnAt(const EdgeRibbon& r, double offsetMm) {
  return std::clamp(r.middle + int(std::lround(offsetMm / r.stepMm)), 0, r.light.cols - 1);
}

cv::Vec3f bandMean(const EdgeRibbon& r, int row, double from, double to) {
  const int a = columnAt(r, from), b = std::max(a + 1, columnAt(r, to));
  cv::Vec3f sum;
  for (int k = a; k < b; ++k) sum += r.light.at<cv::Vec3f>(row, k);
  return sum * (1.0f / float(b - a));
}

struct Contrast {
  cv::Mat step;           // CV_32FC3, by row: from the face to what lies next to it
  cv::Matx33f whitening;  // inverse spread of the face's own colours, and of shade on the ground
};

// shade: spread of the shade on what lies next to the face, as a share of its light.
Contrast contrastAlong(const EdgeRibbon& r, const std::vector<double>& near, double rowStep,
                       float shade) {
  const int n = r.light.rows;
  cv::Mat step(n, 1, CV_32FC3), inside(n, 1, CV_32FC3), smooth;
  for (int i = 0; i < n; ++i) {
    const double at = near[size_t(i)], wall = r.rows[size_t(i)].wallMm;
    const double far = wall > 2 * kClearMm ? std::min(kBandMm, wall - 0.3) : kBandMm;
    inside.at<cv::Vec3f>(i, 0) = bandMean(r, i, at - kBandMm, at - kClearMm);
    step.at<cv::Vec3f>(i, 0) = bandMean(r, i, at + kClearMm, at + far) - inside.at<cv::Vec3f>(i, 0);
  }
  const cv::Size window(1, int(kContrastAlongMm / rowStep) | 1);
  cv::blur(inside, smooth, window, {-1, -1}, cv::BORDER_REPLICATE);
  Contrast c;
  cv::blur(step, c.step, window, {-1, -1}, cv::BORDER_REPLICATE);
  cv::Matx33f spread = cv::Matx33f::eye() * (kLightNoise * kLightNoise);
  for (int i = 0; i < n; ++i) {
    const double at = near[size_t(i)];
    for (int k = columnAt(r, at - kBandMm); k < columnAt(r, at - kClearMm); k += 3) {
      const cv::Vec3f d = r.light.at<cv::Vec3f>(i, k) - smooth.at<cv::Vec3f>(i, 0);
      spread += d * d.t() * (1.0f / float(n) / float(kBandMm / r.stepMm / 3));
    }
  }
  const cv::Scalar mean = cv::mean(smooth + c.step);
  const cv::Vec3f ground = cv::Vec3d(mean[0], mean[1], mean[2]);
  spread += shade * shade * (ground * ground.t());
  c.whitening = spread.inv();
  return c;
}

// Steepness of the step at every place, as a share of its whole height, per mm.
cv::Mat steepness(const EdgeRibbon& r, const cv::Mat& light, const Contrast& contrast) {
  cv::Mat scalar(light.size(), CV_32F), slope;
  for (int i = 0; i < light.rows; ++i) {
    const cv::Vec3f d = contrast.step.at<cv::Vec3f>(i, 0), v = contrast.whitening * d;
    const float height = std::max(1e-6f, d.dot(v));
    for (int k = 0; k < light.cols; ++k)
      scalar.at<float>(i, k) = light.at<cv::Vec3f>(i, k).dot(v) / height;
  }
  const double sigma = std::max(0.8, 0.6 * r.rows[r.rows.size() / 2].mmPerPx / r.stepMm);
  cv::GaussianBlur(scalar, scalar, {0, 0}, sigma, 0.1, cv::BORDER_REPLICATE);
  cv::Sobel(scalar, slope, CV_32F, 1, 0, 1, 0.5, 0, cv::BORDER_REPLICATE);
  return slope / r.stepMm;
}

struct Peak {
  double column = 0;
  float height = 0;
};

// The steepest place near `column`, nearer places counting more, to a fraction of a column.
Peak peakNear(const EdgeRibbon& r, const cv::Mat& slope, int row, double column) {
  const int reach = std::max(2, int(kSearchMm / r.stepMm)), middle = int(std::lround(column));
  int best = std::clamp(middle, 1, slope.cols - 2);
  float most = -1e9f;
  for (int k = std::max(1, middle - reach); k <= std::min(slope.cols - 2, middle + reach); ++k) {
    const double off = (k - column) * r.stepMm / kSearchMm;
    const float value = slope.at<float>(row, k) * float(std::exp(-0.5 * off * off));
    if (value > most) most = value, best = k;
  }
  const float a = slope.at<float>(row, best - 1), b = slope.at<float>(row, best),
              c = slope.at<float>(row, best + 1), curve = a - 2 * b + c;
  const double part =
      curve < -1e-9f ? std::clamp(0.5 * double(a - c) / double(curve), -0.5, 0.5) : 0;
  return {best + part, b};
}

// Root mean square of the steepness in the wood beside the arris.
double noiseAt(const EdgeRibbon& r, const cv::Mat& slope, int row, double column) {
  double sum = 0;
  int n = 0;
  const int to = int(column - 2 / r.stepMm), from = int(column - 7 / r.stepMm);
  for (int i = std::max(0, row - 20); i <= std::min(slope.rows - 1, row + 20); i += 4)
    for (int k = std::max(0, from); k < to; k += 2)
      sum += double(slope.at<float>(i, k)) * double(slope.at<float>(i, k)), ++n;
  return n ? std::sqrt(sum / n) : 1;
}

std::vector<OffsetReading> readingsOf(const EdgeRibbon& ribbon, const std::vector<double>& nearMm,
                                      double rowStepMm, float shade) {
  const Contrast contrast = contrastAlong(ribbon, nearMm, rowStepMm, shade);
  cv::Mat light;
  const int window = int(kAverageAlongMm / rowStepMm) | 1;
  cv::blur(ribbon.light, light, {1, window}, {-1, -1}, cv::BORDER_REPLICATE);
  const cv::Mat slope = steepness(ribbon, light, contrast);
  std::vector<OffsetReading> readings;
  for (int i = 0; i < slope.rows; ++i) {
    const RibbonRow& row = ribbon.rows[size_t(i)];
    const double column = ribbon.middle + nearMm[size_t(i)] / ribbon.stepMm;
    const Peak peak = peakNear(ribbon, slope, i, column);
    OffsetReading reading{(peak.column - ribbon.middle) * ribbon.stepMm, 0};
    const double snr = double(peak.height) / std::max(1e-6, noiseAt(ribbon, slope, i, column));
    // Neighbouring rows share the light they average: their errors are one error.
    if (!row.hidden && row.seen && snr > kLeastSnr)
      reading.sigmaMm =
          std::sqrt(double(window)) * std::hypot(row.mmPerPx / snr, kPixelFloor * row.mmPerPx);
    readings.push_back(reading);
  }
  return readings;
}

double meanWall(const EdgeRibbon& r) {
  double sum = 0;
  for (const RibbonRow& row : r.rows) sum += row.wallMm;
  return sum / double(r.rows.size());
}

// How far the one reading lies outward of the other along most of a side; 0 where few rows tell.
double medianShift(const std::vector<OffsetReading>& from, const std::vector<OffsetReading>& to) {
  std::vector<double> shift;
  for (size_t i = 0; i < from.size(); ++i)
    if (from[i].sigmaMm > 0 && to[i].sigmaMm > 0)
      shift.push_back(to[i].offsetMm - from[i].offsetMm);
  if (2 * shift.size() < from.size()) return 0;
  const auto middle = shift.begin() + std::ptrdiff_t(shift.size() / 2);
  std::nth_element(shift.begin(), middle, shift.end());
  return *middle;
}

}  // namespace

std::vector<OffsetReading> readArris(const EdgeRibbon& ribbon, const std::vector<double>& nearMm,
                                     double rowStepMm) {
  std::vector<OffsetReading> plain = readingsOf(ribbon, nearMm, rowStepMm, 0);
  if (ribbon.rows.empty() || meanWall(ribbon) > kNoWallMm) return plain;
  std::vector<OffsetReading> proof = readingsOf(ribbon, nearMm, rowStepMm, kShade);
  const double shift = medianShift(plain, proof);
  if (shift > -kShadowMm) return plain;
  std::vector<double> nearer = nearMm;
  for (double& near : nearer) near += shift;
  return readingsOf(ribbon, nearer, rowStepMm, kShade);
}

}  // namespace rackside
