// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/face_views.h"

#include <opencv2/imgproc.hpp>

#include "vision/cards/card_model.h"

namespace rackside {
namespace {

constexpr double kCardMarginMm = 3;  // blur, and the shadow of a card that does not lie flat

void hideCards(const FaceViews& views, size_t photo, const PlaneRaster& raster, cv::Mat& usable) {
  for (const Polygon& shadow : cardShadows(views, photo)) {
    std::vector<cv::Point> points;
    for (const Point& p : shadow) points.push_back(raster.pixel(p));
    cv::fillConvexPoly(usable, points, 0);
  }
}

// The finer of two photographs wins at each pixel; compared every `step` pixels.
cv::Mat fineness(const FaceViews& views, size_t photo, const PlaneRaster& raster) {
  const int step = 32;
  cv::Mat nodes(raster.size.height / step + 2, raster.size.width / step + 2, CV_32F), full;
  for (int j = 0; j < nodes.rows; ++j)
    for (int i = 0; i < nodes.cols; ++i)
      nodes.at<float>(j, i) =
          float(samplingAt(*views.adjustment, photo, raster.plane(i * step, j * step)).coarsestMm);
  cv::resize(nodes, full, nodes.size() * step, 0, 0, cv::INTER_LINEAR);
  return full(cv::Rect({}, raster.size));
}

cv::Scalar gainOver(const cv::Mat& wanted, const cv::Mat& given, const cv::Mat& both) {
  if (cv::countNonZero(both) < 500) return {1, 1, 1};
  const cv::Scalar a = cv::mean(wanted, both), b = cv::mean(given, both);
  cv::Scalar gain;
  for (int c = 0; c < 3; ++c) gain[c] = std::clamp(a[c] / std::max(1.0, b[c]), 0.5, 2.0);
  return gain;
}

}  // namespace

std::vector<Polygon> cardShadows(const FaceViews& views, size_t photo) {
  std::vector<Polygon> shadows;
  for (const PlacedCard& card : views.cards) {
    Polygon shadow;
    for (const Point& corner : card.outline) {
      const Point out = corner - card.middle;
      const Point wide = corner + (kCardMarginMm * std::sqrt(2.0) / norm(out)) * out;
      const auto px = views.adjustment->imageFromPlane(photo, wide, card.zMm);
      shadow.push_back(views.adjustment->planeFromImage(photo, px).value_or(wide));
    }
    shadows.push_back(shadow);
  }
  return shadows;
}

std::vector<Point> cardMiddles(const FaceViews& views) {
  std::vector<Point> middles;
  for (const PlacedCard& card : views.cards) middles.push_back(card.middle);
  return middles;
}

PlacedCard placedCard(int number, const Pose& planeFromCard, double zMm) {
  const CardModel card = cardModel(number);
  const double l = card.lengthMm, h = card.heightMm;
  return {rackside::apply(planeFromCard, Polygon{{0, 0}, {l, 0}, {l, h}, {0, h}}),
          rackside::apply(planeFromCard, Point{l / 2, h / 2}), planeFromCard.angleRad, zMm};
}

CoarseFace coarseFace(FaceViews& views, const PlaneRaster& raster) {
  CoarseFace face;
  face.raster = raster;
  cv::Mat best;
  for (size_t p = 0; p < views.photos.size(); ++p) {
    const ImageGrid grid(*views.adjustment, p, raster);
    Warped w = warp(views.photos[p], grid, raster.size, cv::INTER_LINEAR);
    cv::Mat usable = w.valid.clone();
    hideCards(views, p, raster, usable);
    if (views.photos.size() == 1)
      return {raster, w.bgr, usable, w.valid, cv::Mat::zeros(raster.size, CV_8U)};
    const cv::Mat fine = fineness(views, p, raster);
    if (p == 0) {
      face = {raster, w.bgr, usable, w.valid, cv::Mat::zeros(raster.size, CV_8U)};
      best = fine.clone();
      best.setTo(1e9, w.valid == 0);
      continue;
    }
    const cv::Scalar gain = gainOver(face.bgr, w.bgr, face.usable & usable);
    cv::multiply(w.bgr, gain, w.bgr);
    const cv::Mat better = (fine < best) & w.valid;
    w.bgr.copyTo(face.bgr, better);
    usable.copyTo(face.usable, better);
    face.seen |= w.valid;
    face.source.setTo(double(p), better);
    fine.copyTo(best, better);
  }
  return face;
}

}  // namespace rackside
