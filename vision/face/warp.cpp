// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/warp.h"

#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr int kTilePx = 256;  // maps of a tile stay in the cache

// Marks the pixels whose map lies in the photograph, and takes the map to the level's pixels.
void toLevel(cv::Mat& map, cv::Size full, int level, cv::Mat& valid) {
  const float scale = 1.0f / float(1 << level);
  const float right = float(full.width) - 1, bottom = float(full.height) - 1;
  for (int y = 0; y < map.rows; ++y) {
    auto* m = map.ptr<cv::Vec2f>(y);
    uchar* v = valid.ptr<uchar>(y);
    for (int x = 0; x < map.cols; ++x) {
      const bool in = m[x][0] >= 0 && m[x][1] >= 0 && m[x][0] <= right && m[x][1] <= bottom;
      v[x] = in ? 255 : 0;
      if (!in)
        m[x] = {-16, -16};
      else if (level)
        m[x] = {(m[x][0] + 0.5f) * scale - 0.5f, (m[x][1] + 0.5f) * scale - 0.5f};
    }
  }
}

}  // namespace

int PhotoPyramid::levelFor(double sourcePxPerPx) const {
  int level = 0;
  while (sourcePxPerPx >= 1.8 && level + 1 < int(levels_.size())) {
    sourcePxPerPx /= 2;
    ++level;
  }
  return level;
}

void PhotoPyramid::prepare(double sourcePxPerPx) {
  double scale = sourcePxPerPx;
  for (size_t need = 1; scale >= 1.8 && need < 6; ++need, scale /= 2)
    if (levels_.size() <= need) {
      cv::Mat half;
      cv::resize(levels_.back(), half, {}, 0.5, 0.5, cv::INTER_AREA);
      levels_.push_back(half);
    }
}

void warpTile(const PhotoPyramid& photo, const ImageGrid& grid, const cv::Rect& tile,
              int interpolation, cv::Mat& bgr, cv::Mat& valid) {
  if (!grid.sees(tile)) {
    bgr.setTo(0);
    valid.setTo(0);
    return;
  }
  const double middleX = tile.x + tile.width / 2.0, middleY = tile.y + tile.height / 2.0;
  const double scale = grid.scaleAt(middleX, middleY);
  const int level = std::isnan(scale) ? 0 : photo.levelFor(scale);
  cv::Mat map;
  grid.map(tile, map);
  toLevel(map, photo.level(0).size(), level, valid);
  cv::remap(photo.level(level), bgr, map, cv::noArray(), interpolation, cv::BORDER_REPLICATE);
  bgr.setTo(0, valid == 0);
}

Warped warp(PhotoPyramid& photo, const ImageGrid& grid, cv::Size size, int interpolation) {
  Warped out{cv::Mat(size, CV_8UC3), cv::Mat(size, CV_8U)};
  const int across = (size.width + kTilePx - 1) / kTilePx;
  const int down = (size.height + kTilePx - 1) / kTilePx;
  const double scale = grid.scaleAt(size.width / 2.0, size.height / 2.0);
  photo.prepare(std::isnan(scale) ? 4 : 2 * scale);
  cv::parallel_for_({0, across * down}, [&](const cv::Range& tiles) {
    for (int t = tiles.start; t < tiles.end; ++t) {
      const cv::Rect tile = cv::Rect(t % across * kTilePx, t / across * kTilePx, kTilePx, kTilePx) &
                            cv::Rect({}, size);
      cv::Mat bgr = out.bgr(tile), valid = out.valid(tile);
      warpTile(photo, grid, tile, interpolation, bgr, valid);
    }
  });
  return out;
}

}  // namespace rackside
