// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/scan/way_round.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "vision/wood/paper_on_face.h"
#include "vision/wood/tone.h"

namespace rackside {
namespace {

// Rings and knots run on along the board and are a few millimetres and more across; saw marks and
// what grey does are finer or broader.
constexpr double kAlongMm = 8, kAcrossMm = 2.5, kBroadAlongMm = 40, kBroadAcrossMm = 20;
constexpr double kLeastLike = 0.15, kClearlyMore = 0.1;

struct Figure {
  cv::Mat1f rings;
  cv::Mat1b wood;
};

Figure figureOf(const FaceRaster& raster) {
  FaceRaster bare = raster;
  bare.wood = raster.wood.clone();
  bare.wood.setTo(0, paperOnFace(raster).hidden);
  const cv::Mat1f tone = evenedTone(bare, lightField(bare));
  cv::Mat1f fine, broad;
  const double px = 1 / raster.mmPerPx;
  cv::GaussianBlur(tone, fine, {}, kAlongMm * px, kAcrossMm * px);
  cv::GaussianBlur(tone, broad, {}, kBroadAlongMm * px, kBroadAcrossMm * px);
  return {fine - broad, bare.wood};
}

}  // namespace

double likeness(const FaceRaster& a, const FaceRaster& b) {
  const Figure fa = figureOf(a), fb = figureOf(b);
  const cv::Mat1b both = fa.wood & fb.wood;
  if (cv::countNonZero(both) == 0) return 0;
  cv::Mat1f x = fa.rings - cv::mean(fa.rings, both)[0], y = fb.rings - cv::mean(fb.rings, both)[0];
  x.setTo(0, both == 0);
  y.setTo(0, both == 0);
  return x.dot(y) / std::max(1e-12, std::sqrt(x.dot(x) * y.dot(y)));
}

std::optional<bool> turnedEndForEnd(const FaceRaster& stored, const FaceRaster& same,
                                    const FaceRaster& turned) {
  const double asItLies = likeness(stored, same), endForEnd = likeness(stored, turned);
  if (std::max(asItLies, endForEnd) < kLeastLike) return std::nullopt;
  if (std::abs(asItLies - endForEnd) < kClearlyMore) return std::nullopt;
  return endForEnd > asItLies;
}

}  // namespace rackside
