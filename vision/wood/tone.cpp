// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/tone.h"

#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr double kCellMm = 12;   // the light is fitted to means over cells of this size
constexpr int kTerms = 6;        // of the light
constexpr int kColourTerms = 4;  // of the wood: two colour ratios, linear and squared
constexpr double kFloor = 4;     // of 255: keeps the logarithm of black finite

cv::Matx<double, 1, kTerms> termsAt(double u, double v) {
  return {1, u, u * u, u * u * u, v, u * v};
}

// What each channel is multiplied with, so that wood of any colour under light of any tint is read
// as by daylight: each channel's share of the tone is what it is of the light of middling wood
// (blue, green, red; judged from boards and pictures, no source).
constexpr double kShares[] = {0.25, 0.335, 0.415};
cv::Matx13f channelWeights(const FaceRaster& raster) {
  const cv::Scalar mean = cv::mean(raster.bgr, raster.wood);
  const double all = (mean[0] + mean[1] + mean[2]) / 3;
  cv::Matx13f weights;
  for (int k = 0; k < 3; ++k) weights(k) = float(kShares[k] * all / std::max(1.0, mean[k]));
  return weights;
}

// Means of the wood over cells: light (ln), two colour ratios, share of wood.
struct Cells {
  cv::Mat1f light, redGreen, blueGreen, share;
};

Cells cellsOf(const FaceRaster& raster) {
  const double side = std::max(1.0, kCellMm / raster.mmPerPx);
  const cv::Size size(std::max(1, int(raster.bgr.cols / side)),
                      std::max(1, int(raster.bgr.rows / side)));
  cv::Mat masked, sum, share;
  raster.bgr.copyTo(masked, raster.wood);
  cv::resize(masked, sum, size, 0, 0, cv::INTER_AREA);
  cv::resize(raster.wood, share, size, 0, 0, cv::INTER_AREA);
  const cv::Matx13f weights = channelWeights(raster);
  Cells cells{cv::Mat1f(size), cv::Mat1f(size), cv::Mat1f(size), cv::Mat1f(size)};
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      const double part = share.at<uchar>(y, x) / 255.0;
      const auto& c = sum.at<cv::Vec3b>(y, x);
      const auto mean = [&](int k) { return std::max(kFloor, c[k] / std::max(part, 0.1)); };
      cells.share(y, x) = float(part);
      cells.light(y, x) =
          float(std::log(mean(0) * weights(0) + mean(1) * weights(1) + mean(2) * weights(2)));
      cells.redGreen(y, x) = float(std::log(mean(2) / mean(1)));
      cells.blueGreen(y, x) = float(std::log(mean(0) / mean(1)));
    }
  return cells;
}

double meanOf(const cv::Mat1f& m, const cv::Mat1f& share) {
  return cv::sum(m.mul(share))[0] / std::max(1e-9, cv::sum(share)[0]);
}

}  // namespace

LightField lightField(const FaceRaster& raster) {
  const Cells cells = cellsOf(raster);
  const double rg0 = meanOf(cells.redGreen, cells.share);
  const double bg0 = meanOf(cells.blueGreen, cells.share);
  constexpr int n = kTerms + kColourTerms;
  cv::Mat1d solution(n, 1, 0.0);
  for (int round = 0; round < 4; ++round) {
    cv::Mat1d normal(n, n, 0.0), right(n, 1, 0.0);
    for (int y = 0; y < cells.light.rows; ++y)
      for (int x = 0; x < cells.light.cols; ++x) {
        if (cells.share(y, x) < 0.6F) continue;
        const double u = 2 * (x + 0.5) / cells.light.cols - 1;
        const double v = 2 * (y + 0.5) / cells.light.rows - 1;
        const double rg = cells.redGreen(y, x) - rg0, bg = cells.blueGreen(y, x) - bg0;
        double row[n];
        const auto t = termsAt(u, v);
        std::copy(t.val, t.val + kTerms, row);
        row[kTerms] = rg, row[kTerms + 1] = bg, row[kTerms + 2] = rg * rg,
        row[kTerms + 3] = bg * bg;
        double miss = cells.light(y, x);
        for (int k = 0; k < n; ++k) miss -= row[k] * solution(k);
        // Knots and dirt are far off the fit: they lose their weight after the first round.
        const double weight = round == 0 ? 1 : 1 / (1 + miss * miss / 0.01);
        for (int i = 0; i < n; ++i) {
          right(i) += weight * row[i] * cells.light(y, x);
          for (int j = 0; j < n; ++j) normal(i, j) += weight * row[i] * row[j];
        }
      }
    for (int k = 0; k < n; ++k) normal(k, k) += 1e-3;
    cv::solve(normal, right, solution, cv::DECOMP_CHOLESKY);
  }
  LightField field;
  for (int k = 0; k < kTerms; ++k) field.coefficient[k] = solution(k);
  return field;
}

cv::Mat1f evenedTone(const FaceRaster& raster, const LightField& light) {
  cv::Mat1f lut(1, 256);
  for (int i = 0; i < 256; ++i) lut(i) = float(std::log(std::max(kFloor, double(i))));
  cv::Mat grey, tone;
  cv::transform(raster.bgr, grey, channelWeights(raster));
  cv::LUT(grey, lut, tone);
  const int rows = tone.rows, cols = tone.cols;
  for (int y = 0; y < rows; ++y) {
    float* row = tone.ptr<float>(y);
    const uchar* wood = raster.wood[y];
    const double v = 2 * (y + 0.5) / rows - 1;
    for (int x = 0; x < cols; ++x)
      row[x] = wood[x] ? row[x] - float(light.at(2 * (x + 0.5) / cols - 1, v)) : 0.F;
  }
  return tone;
}

}  // namespace rackside
