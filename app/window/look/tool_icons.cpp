// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/look/tool_icons.h"

#include <QIconEngine>
#include <QPainter>
#include <QPainterPath>
#include <QPixmap>
#include <map>

#include "app/window/look/theme.h"

namespace rackside {

namespace {

// On a field of 20 × 20.
QPainterPath pathFor(const QString& tool) {
  QPainterPath p;
  if (tool == QLatin1String("select")) {
    p.moveTo(5, 3);
    for (const QPointF& q : {QPointF(16, 11), QPointF(11, 12), QPointF(14, 17), QPointF(11.5, 18),
                             QPointF(9, 13), QPointF(5, 16)})
      p.lineTo(q);
    p.closeSubpath();
  } else if (tool == QLatin1String("area")) {
    p.moveTo(3, 9);
    for (const QPointF& q : {QPointF(9, 3), QPointF(17, 6), QPointF(15, 16), QPointF(6, 17)})
      p.lineTo(q);
    p.closeSubpath();
  } else if (tool == QLatin1String("ellipse")) {
    p.addEllipse(QPointF(10, 10), 8, 5.5);
  } else if (tool == QLatin1String("line")) {
    p.moveTo(2, 15);
    p.cubicTo(8, 16, 7, 6, 18, 4);
  } else if (tool == QLatin1String("measure")) {
    p.moveTo(3, 10);
    p.lineTo(17, 10);
    p.moveTo(3, 5);
    p.lineTo(3, 15);
    p.moveTo(17, 5);
    p.lineTo(17, 15);
  } else if (tool == QLatin1String("outline")) {
    p.moveTo(2, 6);
    p.lineTo(7, 6);
    p.cubicTo(10, 6, 10, 14, 14, 14);
    p.lineTo(18, 14);
  } else if (tool == QLatin1String("place")) {
    p.addRect(3, 6, 10, 7);
    p.moveTo(9, 16);
    p.lineTo(18, 16);
    p.moveTo(15, 13.5);
    p.lineTo(18, 16);
    p.lineTo(15, 18.5);
  }
  return p;
}

// Painted when shown, so that it follows the theme.
class ToolIconEngine : public QIconEngine {
 public:
  explicit ToolIconEngine(QString tool) : tool_(std::move(tool)) {}
  void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State state) override {
    const Colours& c = colours();
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->translate(rect.topLeft());
    painter->scale(rect.width() / 20.0, rect.height() / 20.0);
    const QColor colour = state == QIcon::On        ? c.onAccent
                          : mode == QIcon::Disabled ? c.faint
                                                    : c.ink;
    painter->setPen(QPen(colour, 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter->drawPath(pathFor(tool_));
    painter->restore();
  }
  QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
    QPixmap pixmap(size);
    pixmap.fill(Qt::transparent);
    QPainter painter(&pixmap);
    paint(&painter, QRect(QPoint(0, 0), size), mode, state);
    return pixmap;
  }
  QIconEngine* clone() const override { return new ToolIconEngine(tool_); }

 private:
  QString tool_;
};

}  // namespace

QIcon toolIcon(const QString& tool) {
  return pathFor(tool).isEmpty() ? QIcon() : QIcon(new ToolIconEngine(tool));
}

}  // namespace rackside
