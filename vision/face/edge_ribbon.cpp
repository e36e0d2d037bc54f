// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/edge_ribbon.h"

#include <array>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

// IEC 61966-2-1: sRGB code values to linear light.
std::array<float, 256> linearLight() {
  std::array<float, 256> table;
  for (int i = 0; i < 256; ++i) {
    const double v = i / 255.0;
    table[size_t(i)] = float(v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4));
  }
  return table;
}

cv::Mat toLinear(const cv::Mat& bgr) {
  static const std::array<float, 256> table = linearLight();
  cv::Mat out(bgr.size(), CV_32FC3);
  for (int y = 0; y < bgr.rows; ++y)
    for (int x = 0; x < bgr.cols; ++x) {
      const cv::Vec3b& c = bgr.at<cv::Vec3b>(y, x);
      out.at<cv::Vec3f>(y, x) = {table[c[0]], table[c[1]], table[c[2]]};
    }
  return out;
}

double finestAcross(const AxisFace& axis, const std::vector<ImageGrid>& grids, size_t photo,
                    Point at, Point outward) {
  const auto pixel = [&](Point p) {
    return cv::Point2d((p.x - axis.region.x0) / kCellFineMm - 0.5,
                       (p.y - axis.region.y0) / kCellFineMm - 0.5);
  };
  const cv::Point2d a = pixel(at), b = pixel(at + 4 * outward);
  const cv::Point2f ia = grids[photo].at(a.x, a.y), ib = grids[photo].at(b.x, b.y);
  return 4 / std::max(1e-3, double(std::hypot(ib.x - ia.x, ib.y - ia.y)));
}

}  // namespace

EdgeRibbon edgeRibbon(FaceViews& views, const AxisFace& axis, const std::vector<Point>& line,
                      const std::vector<Point>& outward, double inwardMm, double outwardMm) {
  EdgeRibbon ribbon;
  std::vector<ImageGrid> grids;
  for (size_t p = 0; p < views.photos.size(); ++p)
    grids.emplace_back(*views.adjustment, p, axis.face.raster);
  const cv::Rect raster({}, axis.face.raster.size);
  std::vector<size_t> photos;
  double finest = 1e9;
  for (size_t i = 0; i < line.size(); ++i) {
    RibbonRow row{line[i], outward[i], 0, 1, false, true};
    const cv::Point cell(axis.column(line[i].x), axis.row(line[i].y));
    row.seen = raster.contains(cell) && axis.face.seen.at<uchar>(cell);
    const size_t photo = row.seen ? axis.face.source.at<uchar>(cell) : 0;
    row.hidden = row.seen && !axis.face.usable.at<uchar>(cell);
    row.wallMm = axis.wallAt(line[i], outward[i], int(photo));
    row.mmPerPx = row.seen ? finestAcross(axis, grids, photo, line[i], outward[i]) : 1;
    if (row.seen) finest = std::min(finest, row.mmPerPx);
    photos.push_back(photo);
    ribbon.rows.push_back(row);
  }
  ribbon.stepMm = std::clamp(finest / 2, 0.1, 0.5);
  ribbon.middle = int(std::ceil(inwardMm / ribbon.stepMm));
  const int columns = ribbon.middle + int(std::ceil(outwardMm / ribbon.stepMm)) + 1;
  cv::Mat bgr(int(line.size()), columns, CV_8UC3, cv::Scalar(0, 0, 0));
  for (size_t p = 0; p < views.photos.size(); ++p) {
    cv::Mat map(bgr.size(), CV_32FC2, cv::Scalar(-9, -9)), part;
    for (int i = 0; i < map.rows; ++i) {
      if (photos[size_t(i)] != p || !ribbon.rows[size_t(i)].seen) continue;
      const RibbonRow& row = ribbon.rows[size_t(i)];
      for (int k = 0; k < columns; ++k) {
        const Point at = row.at + ((k - ribbon.middle) * ribbon.stepMm) * row.outward;
        const cv::Point2f px = grids[p].at((at.x - axis.region.x0) / kCellFineMm - 0.5,
                                           (at.y - axis.region.y0) / kCellFineMm - 0.5);
        if (!std::isnan(px.x)) map.at<cv::Vec2f>(i, k) = {px.x, px.y};
      }
    }
    cv::remap(views.photos[p].level(0), part, map, cv::noArray(), cv::INTER_LINEAR,
              cv::BORDER_REPLICATE);
    for (int i = 0; i < map.rows; ++i)
      if (photos[size_t(i)] == p) part.row(i).copyTo(bgr.row(i));
  }
  ribbon.light = toLinear(bgr);
  return ribbon;
}

}  // namespace rackside
