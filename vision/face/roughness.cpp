// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/roughness.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr size_t kFewest = 200;
constexpr double kLeastSpread = 0.1;  // of a logarithm: surfaces vary by more than a sample shows
constexpr double kNoise = 0.2;        // per cent, below which a change tells nothing

cv::Vec3d logarithms(const cv::Vec3f& changes) {
  return {std::log(double(changes[0]) + kNoise), std::log(double(changes[1]) + kNoise),
          std::log(double(changes[2]) + kNoise)};
}

}  // namespace

cv::Mat changesAlong(const cv::Mat& light) {
  constexpr float kDarkest = 2;  // of light, below which all is noise
  cv::Mat out(light.size(), CV_32FC3);
  for (int y = 0; y < light.rows; ++y)
    for (int x = 0; x < light.cols; ++x) {
      const float here = light.at<float>(y, x);
      for (int lag = 1; lag <= 3; ++lag)
        out.at<cv::Vec3f>(y, x)[lag - 1] =
            100 * std::abs(light.at<float>(y, std::max(0, x - lag)) - here) / (here + kDarkest);
    }
  return out;
}

cv::Mat averagedAlong(const cv::Mat& values, const cv::Mat& weight, int columns) {
  cv::Mat sum, count;
  const cv::Size window(columns, 1);
  cv::boxFilter(values, sum, CV_32F, window, {-1, -1}, false, cv::BORDER_CONSTANT);
  cv::boxFilter(weight, count, CV_32F, window, {-1, -1}, false, cv::BORDER_CONSTANT);
  for (int y = 0; y < sum.rows; ++y)
    for (int x = 0; x < sum.cols; ++x)
      sum.at<cv::Vec3f>(y, x) *= 1 / std::max(1.0F, count.at<float>(y, x));
  return sum;
}

std::vector<double> partings(const std::vector<double>& evidence,
                             const std::vector<int>& wallRows) {
  std::vector<double> upTo{0}, parted;
  for (const double e : evidence) upTo.push_back(upTo.back() + e);
  for (size_t y = 0; y < evidence.size(); ++y)
    parted.push_back(upTo[y] + upTo[std::min(evidence.size(), y + size_t(wallRows[y]))]);
  return parted;
}

RoughnessModel::RoughnessModel(const std::vector<cv::Vec3f>& face,
                               const std::vector<cv::Vec3f>& beyond)
    : knows_(face.size() >= kFewest && beyond.size() >= kFewest) {
  if (!knows_) return;
  face_ = normalOf(face);
  beyond_ = normalOf(beyond);
}

RoughnessModel::Normal RoughnessModel::normalOf(const std::vector<cv::Vec3f>& samples) {
  Normal n;
  const double share = 1.0 / double(samples.size());
  for (const cv::Vec3f& s : samples) n.mean += logarithms(s) * share;
  cv::Matx33d spread = cv::Matx33d::eye() * (kLeastSpread * kLeastSpread);
  for (const cv::Vec3f& s : samples) {
    const cv::Vec3d d = logarithms(s) - n.mean;
    spread += d * d.t() * share;
  }
  n.inverse = spread.inv();
  n.logDeterminant = std::log(cv::determinant(spread));
  return n;
}

double RoughnessModel::Normal::log(const cv::Vec3d& v) const {
  const cv::Vec3d d = v - mean;
  return -0.5 * (d.dot(inverse * d) + logDeterminant);
}

double RoughnessModel::evidence(const cv::Vec3f& changes) const {
  if (!knows_) return 0;
  const cv::Vec3d v = logarithms(changes);
  return face_.log(v) - beyond_.log(v);
}

}  // namespace rackside
