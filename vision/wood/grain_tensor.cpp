// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/grain_tensor.h"

#include <opencv2/imgproc.hpp>

namespace rackside {

cv::Mat1f overCells(const cv::Mat1f& image, cv::Size cells) {
  cv::Mat out;
  cv::resize(image, out, cells, 0, 0, cv::INTER_AREA);
  return out;
}

cv::Mat1f broadMean(const cv::Mat1f& weighted, const cv::Mat1f& share, double cellMm) {
  constexpr double kBroadMm = 10;  // standard deviation
  cv::Mat1f sum, weight;
  const double sigma = kBroadMm / cellMm;
  cv::GaussianBlur(weighted, sum, {0, 0}, sigma, sigma, cv::BORDER_CONSTANT);
  cv::GaussianBlur(share, weight, {0, 0}, sigma, sigma, cv::BORDER_CONSTANT);
  return sum / cv::max(weight, 0.02);
}

TensorImages gradientProducts(const cv::Mat1f& tone, const cv::Mat1b& wood, double mmPerPx,
                              cv::Size cells) {
  cv::Mat1f gx, gy;
  // Scharr's kernels sum to 32 over a step of two pixels.
  cv::Scharr(tone, gx, CV_32F, 1, 0, 1 / (32 * mmPerPx));
  cv::Scharr(tone, gy, CV_32F, 0, 1, 1 / (32 * mmPerPx));
  cv::Mat inside;
  cv::erode(wood, inside, cv::Mat::ones(3, 3, CV_8U), {-1, -1}, 1, cv::BORDER_CONSTANT,
            cv::Scalar(0));
  cv::Mat off = inside == 0;
  gx.setTo(0, off);
  gy.setTo(0, off);
  return {overCells(gx.mul(gx), cells), overCells(gy.mul(gy), cells), overCells(gx.mul(gy), cells)};
}

}  // namespace rackside
