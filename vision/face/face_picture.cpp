// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/face_picture.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "vision/face/mosaic.h"

namespace rackside {
namespace {

constexpr double kMarginMm = 12;      // of surroundings shown about the board
constexpr double kLargestPx = 120e6;  // of one picture; coarser beyond

Point through(const cv::Matx23d& m, Point p) {
  return {m(0, 0) * p.x + m(0, 1) * p.y + m(0, 2), m(1, 0) * p.x + m(1, 1) * p.y + m(1, 2)};
}

cv::Matx23d after(const cv::Matx23d& outer, const cv::Matx23d& inner) {
  cv::Matx23d out;
  for (int r = 0; r < 2; ++r) {
    for (int c = 0; c < 3; ++c) out(r, c) = outer(r, 0) * inner(0, c) + outer(r, 1) * inner(1, c);
    out(r, 2) += outer(r, 2);
  }
  return out;
}

bool inPhoto(const Adjustment& adjustment, size_t photo, Point plane) {
  const cv::Size size = adjustment.lens(photo).size;
  const cv::Point2d px = adjustment.imageFromPlane(photo, plane);
  return px.x >= 0 && px.y >= 0 && px.x < size.width && px.y < size.height;
}

}  // namespace

cv::Matx23d affineOf(const Pose& pose) {
  const double c = std::cos(pose.angleRad), s = std::sin(pose.angleRad);
  return {c, -s, pose.origin.x, s, c, pose.origin.y};
}

double finestSampling(const FaceViews& views, const cv::Matx23d& planeFromBoard, const Rect& box) {
  double finest = 1e9;
  for (size_t p = 0; p < views.photos.size(); ++p)
    for (int i = 0; i <= 16; ++i)
      for (int j = 0; j <= 2; ++j) {
        const Point at =
            through(planeFromBoard, {box.x0 + i * box.width() / 16, box.y0 + j * box.height() / 2});
        if (inPhoto(*views.adjustment, p, at))
          finest = std::min(finest, samplingAt(*views.adjustment, p, at).finestMm);
      }
  return finest;
}

FacePicture facePicture(FaceViews& views, const cv::Matx23d& planeFromBoard, const Rect& box,
                        double finestMmPerPx) {
  FacePicture picture;
  const double x0 = box.x0 - kMarginMm, y1 = box.y1 + kMarginMm;
  const double width = box.width() + 2 * kMarginMm, height = box.height() + 2 * kMarginMm;
  double mm = std::max(finestSampling(views, planeFromBoard, box), finestMmPerPx);
  mm = std::max(mm, std::sqrt(width * height / kLargestPx));
  picture.mmPerPx = mm;
  picture.boardFromPicture = {mm, 0, x0 + mm / 2, 0, -mm, y1 - mm / 2};
  const auto& b = picture.boardFromPicture;
  PlaneRaster raster;
  raster.size = {int(std::ceil(width / mm)), int(std::ceil(height / mm))};
  raster.planeFromPixel = after(planeFromBoard, {b[0], b[1], b[2], b[3], b[4], b[5]});
  picture.bgr = views.photos.size() == 1
                    ? warp(views.photos[0], ImageGrid(*views.adjustment, 0, raster), raster.size,
                           cv::INTER_CUBIC)
                          .bgr
                    : mosaic(views, raster);
  return picture;
}

}  // namespace rackside
