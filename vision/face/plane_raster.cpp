// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/plane_raster.h"

#include <limits>

namespace rackside {
namespace {

constexpr float kNowhere = std::numeric_limits<float>::quiet_NaN();

// A point behind the camera also has an image by the formula: the way back tells.
bool comesBack(const Adjustment& adjustment, size_t photo, cv::Point2d px, Point planeMm,
               double zMm) {
  const auto back = adjustment.planeFromImage(photo, px, zMm);
  return back && norm(*back - planeMm) < 1.0;
}

bool within(cv::Point2d p, cv::Size size, double margin) {
  return p.x >= -margin && p.y >= -margin && p.x <= size.width - 1 + margin &&
         p.y <= size.height - 1 + margin;
}

}  // namespace

Point PlaneRaster::plane(double px, double py) const {
  const cv::Vec2d p = planeFromPixel * cv::Vec3d(px, py, 1);
  return {p[0], p[1]};
}

cv::Point2d PlaneRaster::pixel(Point planeMm) const {
  const auto& m = planeFromPixel;
  const double x = planeMm.x - m(0, 2), y = planeMm.y - m(1, 2);
  const double det = m(0, 0) * m(1, 1) - m(0, 1) * m(1, 0);
  return {(m(1, 1) * x - m(0, 1) * y) / det, (m(0, 0) * y - m(1, 0) * x) / det};
}

double PlaneRaster::mmPerPx() const {
  return std::hypot(planeFromPixel(0, 0), planeFromPixel(1, 0));
}

PlaneRaster rasterOver(const Rect& region, const Pose& planeFromFrame, double mmPerPx, bool yUp) {
  PlaneRaster raster;
  raster.size = {std::max(1, int(std::ceil(region.width() / mmPerPx))),
                 std::max(1, int(std::ceil(region.height() / mmPerPx)))};
  const double c = std::cos(planeFromFrame.angleRad), s = std::sin(planeFromFrame.angleRad);
  const double up = yUp ? 1 : -1;
  const double x = region.x0 + mmPerPx / 2,
               y = yUp ? region.y0 + mmPerPx / 2 : region.y1 - mmPerPx / 2;
  const Point first = rackside::apply(planeFromFrame, {x, y});
  raster.planeFromPixel = {c * mmPerPx, -s * mmPerPx * up, first.x,
                           s * mmPerPx, c * mmPerPx * up,  first.y};
  return raster;
}

ImageGrid::ImageGrid(const Adjustment& adjustment, size_t photo, const PlaneRaster& raster,
                     double stepMm, double zMm)
    : stepPx_(std::max(2.0, stepMm / raster.mmPerPx())) {
  const cv::Size size = adjustment.lens(photo).size;
  nodes_.create(int(raster.size.height / stepPx_) + 2, int(raster.size.width / stepPx_) + 2,
                CV_32FC2);
  cv::parallel_for_({0, nodes_.rows}, [&](const cv::Range& rows) {
    for (int j = rows.start; j < rows.end; ++j)
      for (int i = 0; i < nodes_.cols; ++i) {
        const Point at = raster.plane(i * stepPx_, j * stepPx_);
        const cv::Point2d px = adjustment.imageFromPlane(photo, at, zMm);
        const bool good = within(px, size, 64) && comesBack(adjustment, photo, px, at, zMm);
        nodes_.at<cv::Vec2f>(j, i) =
            good ? cv::Vec2f(float(px.x), float(px.y)) : cv::Vec2f(kNowhere, kNowhere);
      }
  });
}

cv::Point2f ImageGrid::at(double px, double py) const {
  const double gx = px / stepPx_, gy = py / stepPx_;
  const int i = std::clamp(int(gx), 0, nodes_.cols - 2),
            j = std::clamp(int(gy), 0, nodes_.rows - 2);
  const float u = float(gx - i), v = float(gy - j);
  const cv::Vec2f* a = nodes_.ptr<cv::Vec2f>(j) + i;
  const cv::Vec2f* b = nodes_.ptr<cv::Vec2f>(j + 1) + i;
  const cv::Vec2f p = (a[0] * (1 - u) + a[1] * u) * (1 - v) + (b[0] * (1 - u) + b[1] * u) * v;
  return {p[0], p[1]};
}

void ImageGrid::map(const cv::Rect& tile, cv::Mat& map) const {
  map.create(tile.size(), CV_32FC2);
  for (int y = 0; y < tile.height; ++y) {
    auto* row = map.ptr<cv::Vec2f>(y);
    const double gy = (tile.y + y) / stepPx_;
    const int j = std::clamp(int(gy), 0, nodes_.rows - 2);
    const float v = float(gy - j);
    const auto* a = nodes_.ptr<cv::Vec2f>(j);
    const auto* b = nodes_.ptr<cv::Vec2f>(j + 1);
    for (int x = 0; x < tile.width; ++x) {
      const double gx = (tile.x + x) / stepPx_;
      const int i = std::min(int(gx), nodes_.cols - 2);
      const float u = float(gx - i), w = (1 - u) * (1 - v), q = u * (1 - v), r = (1 - u) * v,
                  t = u * v;
      row[x] = {w * a[i][0] + q * a[i + 1][0] + r * b[i][0] + t * b[i + 1][0],
                w * a[i][1] + q * a[i + 1][1] + r * b[i][1] + t * b[i + 1][1]};
    }
  }
}

double ImageGrid::scaleAt(double px, double py) const {
  const cv::Point2f o = at(px, py), dx = at(px + 1, py) - o, dy = at(px, py + 1) - o;
  return std::max(std::hypot(dx.x, dx.y), std::hypot(dy.x, dy.y));
}

bool ImageGrid::sees(const cv::Rect& tile) const {
  const int i0 = int(tile.x / stepPx_),
            i1 = std::min(nodes_.cols - 1, int(tile.br().x / stepPx_) + 1);
  const int j0 = int(tile.y / stepPx_),
            j1 = std::min(nodes_.rows - 1, int(tile.br().y / stepPx_) + 1);
  for (int j = j0; j <= j1; ++j)
    for (int i = i0; i <= i1; ++i)
      if (!std::isnan(nodes_.at<cv::Vec2f>(j, i)[0])) return true;
  return false;
}

Polygon footprint(const Adjustment& adjustment, size_t photo, cv::Size size, Point around,
                  double reachMm) {
  Polygon seen;
  const double w = size.width - 1, h = size.height - 1;
  const auto trace = [&](double x0, double y0, double x1, double y1) {
    for (int i = 0; i < 32; ++i) {
      const double t = i / 32.0;
      const auto p = adjustment.planeFromImage(photo, {x0 + t * (x1 - x0), y0 + t * (y1 - y0)});
      if (p && norm(*p - around) < reachMm) seen.push_back(*p);
    }
  };
  trace(0, 0, w, 0);
  trace(w, 0, w, h);
  trace(w, h, 0, h);
  trace(0, h, 0, 0);
  return seen;
}

Sampling samplingAt(const Adjustment& adjustment, size_t photo, Point p) {
  const double step = 2;
  const cv::Point2d o = adjustment.imageFromPlane(photo, p);
  const cv::Point2d x = (adjustment.imageFromPlane(photo, {p.x + step, p.y}) - o) / step;
  const cv::Point2d y = (adjustment.imageFromPlane(photo, {p.x, p.y + step}) - o) / step;
  const double e = x.x * x.x + y.x * y.x, g = x.y * x.y + y.y * y.y, f = x.x * x.y + y.x * y.y;
  const double mean = (e + g) / 2, spread = std::hypot((e - g) / 2, f);
  return {1 / std::sqrt(mean + spread), 1 / std::sqrt(std::max(1e-12, mean - spread))};
}

}  // namespace rackside
