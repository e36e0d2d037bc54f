// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/hatch.h"

#include <cmath>

namespace rackside::sheets {
namespace {

constexpr double kLineMm = 0.22;

void drawLines(QPainter& painter, const QRectF& box, double spacing, bool rising) {
  const double run = box.height();
  const double start = std::floor((box.left() - run) / spacing) * spacing;
  for (double x = start; x < box.right() + run; x += spacing) {
    if (rising) {
      painter.drawLine(QPointF(x, box.bottom()), QPointF(x + run, box.top()));
    } else {
      painter.drawLine(QPointF(x, box.top()), QPointF(x + run, box.bottom()));
    }
  }
}

void drawUprights(QPainter& painter, const QRectF& box, double spacing) {
  for (double x = std::floor(box.left() / spacing) * spacing; x < box.right(); x += spacing)
    painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
}

void drawLevels(QPainter& painter, const QRectF& box, double spacing) {
  for (double y = std::floor(box.top() / spacing) * spacing; y < box.bottom(); y += spacing)
    painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
}

// Calls draw(x, y) on a staggered grid over the box.
template <class Draw>
void onGrid(const QRectF& box, double spacing, const Draw& draw) {
  int row = 0;
  for (double y = std::floor(box.top() / spacing) * spacing; y < box.bottom() + spacing;
       y += spacing, ++row)
    for (double x = std::floor(box.left() / spacing) * spacing - (row % 2) * spacing / 2;
         x < box.right() + spacing; x += spacing)
      draw(x, y);
}

void drawDots(QPainter& painter, const QRectF& box, double spacing, double radius) {
  painter.setBrush(Qt::black);
  painter.setPen(Qt::NoPen);
  onGrid(box, spacing,
         [&](double x, double y) { painter.drawEllipse(QPointF(x, y), radius, radius); });
}

void drawPattern(QPainter& painter, const QRectF& box, Pattern pattern) {
  painter.setPen(QPen(Qt::black, kLineMm));
  painter.setBrush(Qt::NoBrush);
  switch (pattern) {
    case Pattern::rising:
      return drawLines(painter, box, 1.3, true);
    case Pattern::wide:
      return drawLines(painter, box, 3.2, true);
    case Pattern::bars:
      painter.setPen(QPen(Qt::black, 0.9));
      return drawLines(painter, box, 1.9, false);
    case Pattern::crossed:
      drawLines(painter, box, 1.2, true);
      return drawLines(painter, box, 1.2, false);
    case Pattern::crossedWide:
      drawLines(painter, box, 2.6, true);
      return drawLines(painter, box, 2.6, false);
    case Pattern::grid:
      drawUprights(painter, box, 1.1);
      return drawLevels(painter, box, 1.1);
    case Pattern::uprights:
      return drawUprights(painter, box, 0.8);
    case Pattern::dots:
      return drawDots(painter, box, 1.5, 0.16);
    case Pattern::denseDots:
      return drawDots(painter, box, 0.8, 0.18);
    case Pattern::blots:
      return drawDots(painter, box, 1.9, 0.42);
    case Pattern::rings:
      return onGrid(box, 1.6,
                    [&](double x, double y) { painter.drawEllipse(QPointF(x, y), 0.45, 0.45); });
    case Pattern::pluses:
      return onGrid(box, 1.8, [&](double x, double y) {
        painter.drawLine(QPointF(x - 0.5, y), QPointF(x + 0.5, y));
        painter.drawLine(QPointF(x, y - 0.5), QPointF(x, y + 0.5));
      });
    case Pattern::dashes:
      return onGrid(box, 1.6, [&](double x, double y) {
        painter.drawLine(QPointF(x - 0.5, y), QPointF(x + 0.5, y));
      });
    case Pattern::ticks:
      return onGrid(box, 2.4, [&](double x, double y) {
        painter.drawPolyline(QPolygonF({{x - 0.5, y}, {x - 0.1, y + 0.4}, {x + 0.6, y - 0.6}}));
      });
    case Pattern::solid:
      return painter.fillRect(box, Qt::black);
  }
}

}  // namespace

void fillPattern(QPainter& painter, const QPainterPath& path, Pattern pattern) {
  if (path.isEmpty()) return;
  painter.save();
  if (pattern != Pattern::wide) painter.fillPath(path, QColor(255, 255, 255, 130));
  painter.setClipPath(path, Qt::IntersectClip);
  drawPattern(painter, path.boundingRect(), pattern);
  painter.restore();
}

Pattern patternOf(const Mark& mark) {
  const MarkTraits& traits = traitsOf(mark.kind);
  return mark.soundness == Soundness::sound ? traits.hatchWhenSound : traits.hatch;
}

QString wordFor(const Mark& mark) {
  QString word = QString::fromUtf8(name(mark.kind).data(), qsizetype(name(mark.kind).size()));
  word.replace('-', ' ');
  const Judged judged = traitsOf(mark.kind).judged;
  if (judged == Judged::soundnessAndLife) return (mark.live ? "live " : "old ") + word;
  if (mark.soundness == Soundness::sound) word = "sound " + word;
  if (mark.soundness == Soundness::loose) word = "loose " + word;
  return word;
}

}  // namespace rackside::sheets
