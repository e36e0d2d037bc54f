// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/photo_wear.h"

#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "tests/support/noise.h"
#include "vision/cards/card_model.h"

namespace rackside::synthetic {

PhotoWear randomWear(uint32_t seed) {
  Draw draw(seed * 31ULL + 5);
  PhotoWear w;
  w.gain = draw.between(0.75, 1.08);
  w.tint = {draw.between(0.92, 1.08), 1, draw.between(0.94, 1.06)};
  w.falloff = draw.between(1, 1.7);
  w.falloffRad = draw.between(-0.3, 3.4);
  w.blurPx = draw.between(0.3, 0.8);
  w.noise = draw.between(1, 3.5);
  w.jpegQuality = draw.whole(82, 95);
  w.seed = seed;
  return w;
}

cv::Mat worn(const cv::Mat& bgr, const PhotoWear& wear) {
  cv::Mat3f f;
  bgr.convertTo(f, CV_32F);
  const double c = std::cos(wear.falloffRad), s = std::sin(wear.falloffRad);
  // Along the direction the light falls evenly in its logarithm, from √falloff to 1 / √falloff.
  const double reach = std::abs(c) * f.cols + std::abs(s) * f.rows;
  for (int y = 0; y < f.rows; ++y)
    for (int x = 0; x < f.cols; ++x) {
      const double along = (c * (x - f.cols / 2.0) + s * (y - f.rows / 2.0)) / reach;
      const double light = wear.gain * std::exp(-along * std::log(wear.falloff));
      for (int k = 0; k < 3; ++k) f(y, x)[k] *= float(light * wear.tint[k]);
    }
  if (wear.blurPx > 0) cv::GaussianBlur(f, f, {0, 0}, wear.blurPx);
  if (wear.noise > 0) {
    cv::RNG random(wear.seed + 77);
    cv::Mat3f grain(f.size());
    random.fill(grain, cv::RNG::NORMAL, 0, wear.noise);
    f += grain;
  }
  cv::Mat out;
  f.convertTo(out, CV_8U);
  if (wear.jpegQuality == 0) return out;
  std::vector<uchar> bytes;
  cv::imencode(".jpg", out, bytes, {cv::IMWRITE_JPEG_QUALITY, wear.jpegQuality});
  return cv::imdecode(bytes, cv::IMREAD_COLOR);
}

void layCard(PaintedWood& painted, Point corner) {
  cv::Mat card = drawCard(cardModel(1), 1 / painted.mmPerPx), bgr;
  cv::cvtColor(card, bgr, cv::COLOR_GRAY2BGR);
  bgr.convertTo(bgr, -1, 0.84, 12);  // paper and ink in the light that the wood is in
  const int left = cvRound((corner.x - painted.u0) / painted.mmPerPx);
  const int top = cvRound((painted.v1 - corner.y) / painted.mmPerPx) - bgr.rows;
  bgr.copyTo(painted.bgr(cv::Rect(left, top, bgr.cols, bgr.rows)));
}

FaceRaster rasterOf(const PaintedWood& painted, const cv::Mat& bgr) {
  FaceRaster raster;
  cv::Mat upright;
  cv::flip(bgr, upright, 0);
  raster.bgr = upright;
  raster.wood = cv::Mat1b(upright.size(), uchar(255));
  raster.mmPerPx = painted.mmPerPx;
  raster.origin = {painted.u0, painted.v1 - (upright.rows - 1) * painted.mmPerPx};
  return raster;
}

}  // namespace rackside::synthetic
