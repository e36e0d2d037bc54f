// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/pixel_features.h"

#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

// Steps of a byte per unit. A byte holds ±127 steps; beyond, it is clipped, where it makes no odds.
constexpr double kLightSteps = 3, kColourSteps = 6, kNormalSteps = 12, kEdgeSteps = 6;
constexpr double kShareSteps = 120;

cv::Mat blurred(const cv::Mat& m, double sigma) {
  cv::Mat out;
  cv::GaussianBlur(m, out, {}, sigma, sigma, cv::BORDER_REFLECT);
  return out;
}

cv::Mat box(const cv::Mat& m, int width, int height) {
  cv::Mat out;
  cv::blur(m, out, {width, height}, {-1, -1}, cv::BORDER_REFLECT);
  return out;
}

cv::Mat shifted(const cv::Mat& m, int dx, int dy) {
  cv::Mat wide;
  const int px = std::abs(dx), py = std::abs(dy);
  cv::copyMakeBorder(m, wide, py, py, px, px, cv::BORDER_REFLECT);
  return wide(cv::Rect(px + dx, py + dy, m.cols, m.rows)).clone();
}

cv::Mat disc(int radius) {
  return cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * radius + 1, 2 * radius + 1});
}

// Gathers planes and lays them pixel by pixel.
class Planes {
 public:
  void add(const cv::Mat& plane, double steps, double middle = 128) {
    cv::Mat byte;
    plane.convertTo(byte, CV_8U, steps, middle);
    planes_.push_back(byte);
  }
  PixelFeatures lay() const {
    PixelFeatures out;
    out.rows = planes_.front().rows;
    out.cols = planes_.front().cols;
    out.width = static_cast<int>(planes_.size());
    const size_t width = planes_.size(), cols = static_cast<size_t>(out.cols);
    out.bytes.resize(static_cast<size_t>(out.rows) * cols * width);
    for (int y = 0; y < out.rows; ++y) {
      uint8_t* row = &out.bytes[static_cast<size_t>(y) * cols * width];
      for (size_t f = 0; f < width; ++f) {
        const uint8_t* from = planes_[f].ptr<uint8_t>(y);
        for (size_t x = 0; x < cols; ++x) row[x * width + f] = from[x];
      }
    }
    return out;
  }

 private:
  std::vector<cv::Mat> planes_;
};

void addTone(Planes& p, const WoodTone& t) {
  for (const double sigma : {0.7, 1.5, 3.0, 6.0, 12.0}) p.add(blurred(t.light, sigma), kLightSteps);
  p.add(blurred(t.light, 0.7), kNormalSteps / t.detail);
  p.add(blurred(t.light, 3), kNormalSteps / t.detail);
  for (const double sigma : {1.0, 3.0, 8.0}) {
    p.add(blurred(t.red, sigma), kColourSteps);
    p.add(blurred(t.yellow, sigma), kColourSteps);
  }
  p.add(t.faceLight, kLightSteps);
  p.add(blurred(t.faceLight, 12), kLightSteps);
  p.add(blurred(t.faceRed, 4), kColourSteps);
  p.add(blurred(t.faceYellow, 4), kColourSteps);
}

// Curvature of the tone along and across the fibres, and along its own principal directions.
void addCurvature(Planes& p, const WoodTone& t) {
  for (const double sigma : {1.0, 2.0, 4.0, 8.0}) {
    const cv::Mat soft = blurred(t.light, sigma);
    cv::Mat xx, yy, xy, root;
    cv::Sobel(soft, xx, CV_32F, 2, 0, 3, sigma * sigma / 4, 0, cv::BORDER_REFLECT);
    cv::Sobel(soft, yy, CV_32F, 0, 2, 3, sigma * sigma / 4, 0, cv::BORDER_REFLECT);
    cv::Sobel(soft, xy, CV_32F, 1, 1, 3, sigma * sigma / 4, 0, cv::BORDER_REFLECT);
    const cv::Mat half = (xx - yy) / 2;
    cv::sqrt(half.mul(half) + xy.mul(xy), root);
    const cv::Mat mean = (xx + yy) / 2;
    p.add(mean + root, kLightSteps * 2);
    p.add(mean - root, kLightSteps * 2);
    p.add(xx, kLightSteps * 2);
    p.add(yy, kLightSteps * 2);
  }
}

// How lively the figure is and which way it runs (structure tensor).
void addFigure(Planes& p, const WoodTone& t) {
  for (const double sigma : {1.0, 3.0, 6.0}) {
    cv::Mat gx, gy, size;
    const cv::Mat soft = blurred(t.light, sigma);
    cv::Sobel(soft, gx, CV_32F, 1, 0, 3, sigma / 8, 0, cv::BORDER_REFLECT);
    cv::Sobel(soft, gy, CV_32F, 0, 1, 3, sigma / 8, 0, cv::BORDER_REFLECT);
    cv::magnitude(gx, gy, size);
    p.add(size, kLightSteps * 4, 0);
    if (sigma > 1) continue;
    for (const double reach : {3.0, 8.0, 16.0}) {
      const cv::Mat xx = blurred(gx.mul(gx), reach), yy = blurred(gy.mul(gy), reach),
                    xy = blurred(gx.mul(gy), reach);
      const cv::Mat sum = xx + yy + 1e-3, difference = yy - xx;
      cv::Mat root, strength;
      cv::sqrt(difference.mul(difference) + 4 * xy.mul(xy), root);
      cv::sqrt(sum, strength);
      p.add(strength, 40, 0);
      p.add(root / sum, 2 * kShareSteps, 0);
      p.add(difference / sum, kShareSteps);
      p.add(cv::abs(xy) / sum, 4 * kShareSteps, 0);
    }
  }
}

void addSpread(Planes& p, const WoodTone& t) {
  for (const int size : {5, 13, 31}) {
    const cv::Mat mean = box(t.light, size, size);
    cv::Mat variance = box(t.light.mul(t.light), size, size) - mean.mul(mean), root;
    cv::sqrt(cv::max(variance, 0), root);
    p.add(root, 10, 0);
  }
  for (const int radius : {2, 5, 10}) {
    cv::Mat darkest, palest;
    cv::erode(t.light, darkest, disc(radius), {-1, -1}, 1, cv::BORDER_REFLECT);
    cv::dilate(t.light, palest, disc(radius), {-1, -1}, 1, cv::BORDER_REFLECT);
    p.add(darkest, kLightSteps);
    p.add(palest, kLightSteps);
  }
}

// A ring of the log is as dark along the fibres as here; a knot is not, nor a crack across.
void addLines(Planes& p, const WoodTone& t) {
  const cv::Mat here = blurred(t.light, 1);
  p.add(box(here, 21, 1) - here, kLightSteps);
  p.add(box(here, 1, 21) - here, kLightSteps);
  p.add(box(here, 61, 3), kLightSteps);
  p.add(box(here, 3, 61), kLightSteps);
  p.add(box(here, 15, 1) - box(here, 15, 7), 2 * kLightSteps);
  p.add(box(here, 1, 15) - box(here, 7, 15), 2 * kLightSteps);
  const cv::Mat soft = blurred(t.light, 2.5);
  for (const int r : {7, 14, 24}) {
    const cv::Mat left = shifted(soft, -r, 0), right = shifted(soft, r, 0),
                  up = shifted(soft, 0, -r), down = shifted(soft, 0, r);
    p.add(cv::min(left, right), kLightSteps);
    p.add(cv::max(left, right), kLightSteps);
    p.add(cv::min(up, down), kLightSteps);
    p.add(cv::max(up, down), kLightSteps);
  }
}

}  // namespace

PixelFeatures pixelFeatures(const WoodTone& tone) {
  Planes planes;
  addTone(planes, tone);
  addCurvature(planes, tone);
  addFigure(planes, tone);
  addSpread(planes, tone);
  addLines(planes, tone);
  planes.add(tone.edgePx, kEdgeSteps, 0);
  return planes.lay();
}

}  // namespace rackside
