// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/face/face_item.h"

#include <QPainterPathStroker>

namespace rackside {

QPainterPath pathOf(const Polygon& polygon) {
  QPainterPath path;
  for (size_t i = 0; i < polygon.size(); ++i) {
    const QPointF p(polygon[i].x, polygon[i].y);
    i == 0 ? path.moveTo(p) : path.lineTo(p);
  }
  path.closeSubpath();
  return path;
}

QPainterPath pathOf(const Polygons& polygons) {
  QPainterPath path;
  for (const Polygon& polygon : polygons) path.addPath(pathOf(polygon));
  return path;
}

void paintPlate(QPainter& painter, QPointF at, const QString& text, const QColor& ink,
                const QColor& plate) {
  const QFontMetricsF metrics(painter.font());
  const double height = metrics.height() + 2;
  const double width = std::max(height, metrics.horizontalAdvance(text) + 8);
  const QRectF box(at.x() - width / 2, at.y() - height / 2, width, height);
  painter.setPen(Qt::NoPen);
  painter.setBrush(plate);
  painter.drawRoundedRect(box, 4, 4);
  painter.setPen(ink);
  painter.drawText(box, Qt::AlignCenter, text);
}

void FaceItem::setPath(QPainterPath path) {
  path_ = std::move(path);
  const QRectF b = path_.boundingRect();
  box_ = {b.left(), b.top(), b.right(), b.bottom()};
}

bool FaceItem::pathHit(Point board, double toleranceMm, bool inside) const {
  if (board.x < box_.x0 - toleranceMm || board.x > box_.x1 + toleranceMm ||
      board.y < box_.y0 - toleranceMm || board.y > box_.y1 + toleranceMm)
    return false;
  const QPointF p(board.x, board.y);
  if (inside && path_.contains(p)) return true;
  QPainterPathStroker stroker;
  stroker.setWidth(std::max(2 * toleranceMm, 0.01));
  return stroker.createStroke(path_).contains(p);
}

}  // namespace rackside
