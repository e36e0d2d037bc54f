// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/face/face_item.h"

#include <QPainterPathStroker>
#include <QPixmapCache>
#include <cmath>

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

namespace {

QPixmap plateOf(const QFont& font, double ratio, const QString& text, const QColor& ink,
                const QColor& plate) {
  const QFontMetricsF metrics(font);
  const double height = std::ceil(metrics.height()) + 2;
  const double width = std::max(height, std::ceil(metrics.horizontalAdvance(text)) + 8);
  QPixmap pixmap(QSizeF(width * ratio, height * ratio).toSize());
  pixmap.setDevicePixelRatio(ratio);
  pixmap.fill(Qt::transparent);
  QPainter painter(&pixmap);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setFont(font);
  const QRectF box(0, 0, width, height);
  painter.setPen(Qt::NoPen);
  painter.setBrush(plate);
  painter.drawRoundedRect(box, 4, 4);
  painter.setPen(ink);
  painter.drawText(box, Qt::AlignCenter, text);
  return pixmap;
}

}  // namespace

// Setting text is the slowest part of a frame, so a plate is drawn once and then copied, on whole
// device pixels so that it stays sharp.
void paintPlate(QPainter& painter, QPointF at, const QString& text, const QColor& ink,
                const QColor& plate) {
  const double ratio = painter.device()->devicePixelRatioF();
  const QString key = QStringLiteral("plate %1 %2 %3 %4 %5")
                          .arg(text, ink.name(), plate.name(), painter.font().toString())
                          .arg(ratio);
  QPixmap pixmap;
  if (!QPixmapCache::find(key, &pixmap)) {
    pixmap = plateOf(painter.font(), ratio, text, ink, plate);
    QPixmapCache::insert(key, pixmap);
  }
  const QSizeF size = pixmap.deviceIndependentSize();
  const auto whole = [ratio](double v) { return std::round(v * ratio) / ratio; };
  painter.drawPixmap(QPointF(whole(at.x() - size.width() / 2), whole(at.y() - size.height() / 2)),
                     pixmap);
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
