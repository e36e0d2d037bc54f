// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/tools/edge_follower.h"

#include <QPainter>
#include <cmath>
#include <opencv2/core.hpp>

#include "app/window/document/background.h"
#include "vision/face/follow_edge.h"

namespace rackside {

namespace {

constexpr double kMostPx = 1500;  // along the strip that is read
constexpr double kRoomMm = 15;    // beyond the reach, so that both sides of an edge are in view

Point inPicture(const std::array<double, 6>& m, Point p) {
  const double det = m[0] * m[4] - m[1] * m[3];
  const double x = p.x - m[2], y = p.y - m[5];
  return {(m[4] * x - m[1] * y) / det, (m[0] * y - m[3] * x) / det};
}

QImage stripOf(const TilePyramid& tiles, int level, const QRect& box) {
  QImage strip(box.size(), QImage::Format_RGB32);
  strip.fill(Qt::black);
  QPainter painter(&strip);
  for (int row = box.top() / kTilePx; row <= box.bottom() / kTilePx; ++row)
    for (int column = box.left() / kTilePx; column <= box.right() / kTilePx; ++column)
      painter.drawImage(QPoint(column * kTilePx, row * kTilePx) - box.topLeft(),
                        tiles.tile(level, column, row));
  return strip;
}

int levelFor(const TilePyramid& tiles, double lengthPx) {
  const int level = static_cast<int>(std::ceil(std::log2(std::max(lengthPx / kMostPx, 1.0))));
  return std::min(level, tiles.levels() - 1);
}

}  // namespace

std::vector<StretchPoint> edgeBetween(const EdgePicture& picture, Point from, Point to,
                                      double toSigmaMm) {
  const StretchPoint end{to, toSigmaMm};
  const auto& m = picture.boardFromPicture;
  const double mmPerPx = std::sqrt(std::abs(m[0] * m[4] - m[1] * m[3]));
  if (!picture.tiles || !(mmPerPx > 0)) return {end};
  const FollowOptions options;
  const Point a = inPicture(m, from), b = inPicture(m, to);
  const int level = levelFor(*picture.tiles, norm(b - a));
  const QSize whole = picture.tiles->size(0), size = picture.tiles->size(level);
  const double sx = whole.width() / double(size.width()),
               sy = whole.height() / double(size.height());
  const double room = (options.reachMm + kRoomMm) / mmPerPx;
  const QRectF wanted(QPointF((std::min(a.x, b.x) - room) / sx, (std::min(a.y, b.y) - room) / sy),
                      QPointF((std::max(a.x, b.x) + room) / sx, (std::max(a.y, b.y) + room) / sy));
  const QRect box = wanted.toAlignedRect() & QRect(QPoint(0, 0), size);
  if (box.width() < 8 || box.height() < 8) return {end};
  const QImage strip = stripOf(*picture.tiles, level, box).convertToFormat(QImage::Format_BGR888);
  const cv::Mat bgr(strip.height(), strip.width(), CV_8UC3, const_cast<uchar*>(strip.constBits()),
                    static_cast<size_t>(strip.bytesPerLine()));
  // Pixel centres at integers in both; a coarse pixel covers sx × sy of the picture's.
  const double x0 = (box.left() + 0.5) * sx - 0.5, y0 = (box.top() + 0.5) * sy - 0.5;
  const std::array<double, 6> boardFromStrip{m[0] * sx, m[1] * sy, m[0] * x0 + m[1] * y0 + m[2],
                                             m[3] * sx, m[4] * sy, m[3] * x0 + m[4] * y0 + m[5]};
  std::vector<StretchPoint> line;
  for (const FollowedPoint& p : followEdge(bgr, boardFromStrip, from, to, options))
    line.push_back({p.at, p.sigmaMm});
  line.push_back(end);
  return line;
}

EdgeFollower::EdgeFollower(QObject* parent) : QObject(parent) {
  pool_.setMaxThreadCount(1);
}

EdgeFollower::~EdgeFollower() {
  pool_.waitForDone();
}

void EdgeFollower::ask(const EdgePicture& picture, Point from, Point to, double toSigmaMm) {
  waiting_ = Wish{picture, from, to, toSigmaMm};
  if (!working_) startNext();
}

void EdgeFollower::startNext() {
  if (!waiting_) return;
  working_ = true;
  inBackground(
      pool_, this,
      [wish = *waiting_] { return edgeBetween(wish.picture, wish.from, wish.to, wish.toSigmaMm); },
      [this, from = waiting_->from, to = waiting_->to](const std::vector<StretchPoint>& line) {
        working_ = false;
        emit found(from, to, line);
        startNext();
      });
  waiting_.reset();
}

}  // namespace rackside
