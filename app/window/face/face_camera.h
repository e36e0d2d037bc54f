// SPDX-License-Identifier: GPL-3.0-or-later
// From the board frame (mm, y up) to the view (device-independent pixels, y down) and back.
#pragma once

#include <QPointF>
#include <QRectF>
#include <QTransform>
#include <algorithm>

#include "core/geometry/shapes.h"

namespace rackside {

class FaceCamera {
 public:
  static constexpr double kLeastPxPerMm = 0.02;
  static constexpr double kGreatestPxPerMm = 60;

  double pxPerMm() const { return pxPerMm_; }
  // Seen as it lies when turned over: left and right change places.
  bool turnedOver() const { return turnedOver_; }
  void setTurnedOver(bool over) { turnedOver_ = over; }
  void setViewport(const QRectF& viewport) { viewport_ = viewport; }
  const QRectF& viewport() const { return viewport_; }

  QTransform screenFromBoard() const {
    const double sx = turnedOver_ ? -pxPerMm_ : pxPerMm_;
    const QPointF middle = viewport_.center();
    return {sx, 0, 0, -pxPerMm_, middle.x() - sx * centre_.x, middle.y() + pxPerMm_ * centre_.y};
  }
  QPointF toScreen(Point p) const { return screenFromBoard().map(QPointF(p.x, p.y)); }
  Point toBoard(QPointF s) const {
    const QPointF p = screenFromBoard().inverted().map(s);
    return {p.x(), p.y()};
  }
  Rect visible() const {
    const Point a = toBoard(viewport_.topLeft()), b = toBoard(viewport_.bottomRight());
    return {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
  }

  void zoomAt(QPointF anchor, double factor) {
    const Point held = toBoard(anchor);
    pxPerMm_ = std::clamp(pxPerMm_ * factor, kLeastPxPerMm, kGreatestPxPerMm);
    panBy(anchor - toScreen(held));
  }
  void panBy(QPointF pixels) {
    centre_.x -= (turnedOver_ ? -1 : 1) * pixels.x() / pxPerMm_;
    centre_.y += pixels.y() / pxPerMm_;
  }
  void fit(const Rect& board, double marginPx) {
    const double w = std::max(board.width(), 1.0), h = std::max(board.height(), 1.0);
    const double room = std::max(20.0, viewport_.width() - 2 * marginPx);
    const double height = std::max(20.0, viewport_.height() - 2 * marginPx);
    pxPerMm_ = std::clamp(std::min(room / w, height / h), kLeastPxPerMm, kGreatestPxPerMm);
    centre_ = {(board.x0 + board.x1) / 2, (board.y0 + board.y1) / 2};
  }
  // Keeps part of `board` in view, so that it cannot be lost.
  void keepNear(const Rect& board) {
    const double x = 0.45 * viewport_.width() / pxPerMm_, y = 0.45 * viewport_.height() / pxPerMm_;
    centre_.x = std::clamp(centre_.x, board.x0 - x, board.x1 + x);
    centre_.y = std::clamp(centre_.y, board.y0 - y, board.y1 + y);
  }
  bool operator==(const FaceCamera&) const = default;

 private:
  double pxPerMm_ = 0.4;
  Point centre_;
  bool turnedOver_ = false;
  QRectF viewport_{0, 0, 800, 400};
};

}  // namespace rackside
