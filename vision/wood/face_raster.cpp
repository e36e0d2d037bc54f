// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/face_raster.h"

#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/storage/rack_folder.h"

namespace rackside {
namespace {

constexpr int kSubpixelBits = 4;  // of cv::fillPoly

cv::Matx23d pictureFromRaster(const std::array<double, 6>& m, Point origin, double mmPerPx) {
  const double det = m[0] * m[4] - m[1] * m[3];
  const cv::Matx22d inverse(m[4] / det, -m[1] / det, -m[3] / det, m[0] / det);
  const cv::Vec2d start = inverse * cv::Vec2d(origin.x - m[2], origin.y - m[5]);
  return {inverse(0, 0) * mmPerPx, inverse(0, 1) * mmPerPx, start[0],
          inverse(1, 0) * mmPerPx, inverse(1, 1) * mmPerPx, start[1]};
}

}  // namespace

cv::Mat1b maskOf(const FaceRaster& raster, const Polygons& polygons) {
  cv::Mat1b mask(raster.bgr.size(), uchar(0));
  std::vector<std::vector<cv::Point>> rings;
  const double scale = (1 << kSubpixelBits) / raster.mmPerPx;
  for (const Polygon& p : polygons) {
    rings.emplace_back();
    for (const Point q : p)
      rings.back().emplace_back(cvRound((q.x - raster.origin.x) * scale),
                                cvRound((q.y - raster.origin.y) * scale));
  }
  cv::fillPoly(mask, rings, cv::Scalar(255), cv::LINE_8, kSubpixelBits);
  return mask;
}

FaceRaster layOutFace(const cv::Mat& pictureBgr, const std::array<double, 6>& boardFromPicture,
                      const Polygon& outline, double mmPerPx) {
  FaceRaster raster;
  const Rect box = bounds(outline);
  raster.mmPerPx = mmPerPx;
  raster.origin = {box.x0 + mmPerPx / 2, box.y0 + mmPerPx / 2};
  const cv::Size size(std::max(1, int(std::ceil(box.width() / mmPerPx))),
                      std::max(1, int(std::ceil(box.height() / mmPerPx))));
  cv::Mat source = pictureBgr;
  cv::Matx23d map = pictureFromRaster(boardFromPicture, raster.origin, mmPerPx);
  // More than about 1.5 picture pixels a raster pixel would alias: average first.
  const double shrink = std::sqrt(std::abs(map(0, 0) * map(1, 1) - map(0, 1) * map(1, 0)));
  if (shrink > 1.5) {
    const double scale = 1 / shrink;
    cv::resize(source, source, {}, scale, scale, cv::INTER_AREA);
    const double sx = double(source.cols) / pictureBgr.cols;
    const double sy = double(source.rows) / pictureBgr.rows;
    for (int c = 0; c < 3; ++c) map(0, c) *= sx, map(1, c) *= sy;
    map(0, 2) += (sx - 1) / 2;
    map(1, 2) += (sy - 1) / 2;
  }
  cv::Mat bgr;
  cv::warpAffine(source, bgr, map, size, cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                 cv::BORDER_REPLICATE);
  raster.bgr = bgr;
  raster.wood = maskOf(raster, {outline});
  return raster;
}

Result<FaceRaster> readFaceRaster(const Board& board, Face face,
                                  const std::filesystem::path& rackFolder, double mmPerPx) {
  const Picture* picture = board.newestPicture(face);
  const std::string which = "Face " + std::string(name(face)) + " of board " + board.name;
  if (!picture || picture->mmPerPx <= 0)
    return Error{which + " has no picture: scan it first (rackside scan)."};
  const auto file = pictureFile(rackFolder, board, *picture);
  std::error_code error;  // the library says its own about a file that is not there
  const cv::Mat bgr =
      std::filesystem::is_regular_file(file, error)
          ? cv::imread(file.string(), cv::IMREAD_COLOR | cv::IMREAD_IGNORE_ORIENTATION)
          : cv::Mat();
  if (bgr.empty())
    return Error{which + ": its picture " + file.string() +
                 " cannot be read; put it back or scan the face again."};
  return layOutFace(bgr, picture->boardFromPicture, board.outline.polygon(), mmPerPx);
}

}  // namespace rackside
