// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/pigment.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

// L*a*b* of waxy crayon, laid on thick (common practice, no source); what counts is the direction
// from the wood.
cv::Vec3f pigmentLab(CrayonColour colour) {
  switch (colour) {
    case CrayonColour::white:
      return {94, 0, 3};
    case CrayonColour::yellow:
      return {84, 6, 78};
    case CrayonColour::red:
      return {46, 58, 34};
    case CrayonColour::blue:
      return {40, 4, -44};
  }
  return {};
}

// Light counts less than colour: shadow and grime change it too. For white it is most of what there
// is.
float lightWeight(CrayonColour colour) {
  return colour == CrayonColour::white ? 1.0F : 0.5F;
}

// Local wood is what most of it is within this distance, on a picture shrunk by kShrink.
constexpr int kShrink = 8, kMedianPx = 15;
// A pixel may leave the line from wood to pigment by so much of its way along it.
constexpr float kSideways = 0.55F;

// The median round each pixel: a stroke does not move it. Bench and cards take the face's own
// median first.
cv::Mat localWood(const cv::Mat& lab, const cv::Mat& wood) {
  cv::Mat filled = lab.clone(), small;
  cv::Mat channels[3];
  std::array<double, 3> middle{};
  cv::split(lab, channels);
  for (size_t k = 0; k < 3; ++k) {
    std::vector<float> values;
    for (int y = 0; y < lab.rows; y += 4)
      for (int x = 0; x < lab.cols; x += 4)
        if (wood.at<uint8_t>(y, x)) values.push_back(channels[k].at<float>(y, x));
    if (values.empty()) continue;
    std::nth_element(values.begin(), values.begin() + static_cast<long>(values.size() / 2),
                     values.end());
    middle[k] = values[values.size() / 2];
  }
  filled.setTo(cv::Scalar(middle[0], middle[1], middle[2]), wood == 0);
  cv::resize(filled, small, {std::max(1, lab.cols / kShrink), std::max(1, lab.rows / kShrink)}, 0,
             0, cv::INTER_AREA);
  // Bytes, offset so that a* and b* fit: medianBlur knows no larger float window.
  cv::Mat bytes;
  cv::Mat(small + cv::Scalar(0, 128, 128)).convertTo(bytes, CV_8UC3);
  cv::medianBlur(bytes, bytes, kMedianPx);
  bytes.convertTo(small, CV_32FC3);
  small -= cv::Scalar(0, 128, 128);
  cv::Mat out;
  cv::resize(small, out, lab.size(), 0, 0, cv::INTER_LINEAR);
  return out;
}

}  // namespace

cv::Mat pigmentShare(const cv::Mat& bgr, const cv::Mat& wood, CrayonColour colour) {
  cv::Mat unit, lab;
  bgr.convertTo(unit, CV_32F, 1 / 255.0);
  cv::cvtColor(unit, lab, cv::COLOR_BGR2Lab);
  cv::GaussianBlur(lab, lab, {}, 0.8);
  const cv::Mat ground = localWood(lab, wood);
  const cv::Vec3f pigment = pigmentLab(colour);
  const float w = lightWeight(colour);
  cv::Mat share = cv::Mat::zeros(bgr.size(), CV_32F);
  for (int y = 0; y < bgr.rows; ++y)
    for (int x = 0; x < bgr.cols; ++x) {
      if (!wood.at<uint8_t>(y, x)) continue;
      cv::Vec3f way = pigment - ground.at<cv::Vec3f>(y, x);
      cv::Vec3f gone = lab.at<cv::Vec3f>(y, x) - ground.at<cv::Vec3f>(y, x);
      way[0] *= w, gone[0] *= w;
      const float length = std::max(way.dot(way), 1.0F), along = gone.dot(way) / length;
      if (along <= 0) continue;
      const auto aside = static_cast<float>(cv::norm(gone - along * way));
      const float allowed = kSideways * along * std::sqrt(length);
      share.at<float>(y, x) = aside > allowed ? 0 : std::min(along, 1.0F);
    }
  return share;
}

}  // namespace rackside
