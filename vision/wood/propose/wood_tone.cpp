// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/wood_tone.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>
#include <vector>

namespace rackside {
namespace {

constexpr int kCoarse = 4;       // the surroundings are averaged on so many pixels at once
constexpr double kRoundPx = 24;  // standard deviation of "round about"
constexpr double kFaceBlurPx = 2;
constexpr double kLeastDetail = 1, kMostDetail = 8;  // of L*

// The mean of the wood round each pixel; what is not wood has no say.
cv::Mat surroundings(const cv::Mat& channel, const cv::Mat& weight) {
  cv::Mat value, share;
  const cv::Size coarse(std::max(1, channel.cols / kCoarse), std::max(1, channel.rows / kCoarse));
  cv::resize(channel.mul(weight), value, coarse, 0, 0, cv::INTER_AREA);
  cv::resize(weight, share, coarse, 0, 0, cv::INTER_AREA);
  const double sigma = kRoundPx / kCoarse;
  cv::GaussianBlur(value, value, {}, sigma, sigma, cv::BORDER_REFLECT);
  cv::GaussianBlur(share, share, {}, sigma, sigma, cv::BORDER_REFLECT);
  cv::Mat mean = value / cv::max(share, 1e-4);
  cv::resize(mean, mean, channel.size(), 0, 0, cv::INTER_LINEAR);
  return mean;
}

float medianOver(const cv::Mat& channel, const cv::Mat& wood) {
  std::vector<float> values;
  for (int y = 0; y < channel.rows; y += 3)
    for (int x = 0; x < channel.cols; x += 3)
      if (wood.at<uint8_t>(y, x)) values.push_back(channel.at<float>(y, x));
  if (values.empty()) return 0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace

WoodTone woodTone(const cv::Mat& bgr, const cv::Mat& wood) {
  WoodTone tone;
  tone.wood = wood;
  cv::Mat unit, lab;
  bgr.convertTo(unit, CV_32F, 1 / 255.0);
  cv::cvtColor(unit, lab, cv::COLOR_BGR2Lab);
  cv::Mat channels[3], weight;
  cv::split(lab, channels);
  wood.convertTo(weight, CV_32F, 1 / 255.0);
  cv::Mat* near[3] = {&tone.light, &tone.red, &tone.yellow};
  cv::Mat* whole[3] = {&tone.faceLight, &tone.faceRed, &tone.faceYellow};
  for (int k = 0; k < 3; ++k) {
    const cv::Mat mean = surroundings(channels[k], weight);
    *near[k] = (channels[k] - mean).mul(weight);
    const float middle = medianOver(channels[k], wood);
    cv::Mat filled = *near[k] + mean - middle;
    cv::GaussianBlur(filled, *whole[k], {}, kFaceBlurPx, kFaceBlurPx, cv::BORDER_REFLECT);
  }
  tone.detail =
      std::clamp(1.4826 * medianOver(cv::abs(tone.light), wood), kLeastDetail, kMostDetail);
  cv::Mat framed;  // the border of the picture is not an edge of the wood
  cv::copyMakeBorder(wood, framed, 0, 0, 0, 0, cv::BORDER_REPLICATE);
  if (cv::countNonZero(wood) == static_cast<int>(wood.total())) {
    tone.edgePx = cv::Mat(wood.size(), CV_32F, cv::Scalar(1e3));
  } else {
    cv::distanceTransform(framed, tone.edgePx, cv::DIST_L2, 3);
  }
  return tone;
}

}  // namespace rackside
