// SPDX-License-Identifier: GPL-3.0-or-later
// The card that explains the crayon strokes.
#include <QPainterPath>

#include "app/sheets/card_drawing.h"

namespace rackside::sheets {
namespace {

struct CrayonStroke {
  QString title, meaning;
  QPainterPath path;  // in a box of 50 × 40 mm
};

std::vector<CrayonStroke> strokes() {
  CrayonStroke ring{QStringLiteral("A closed ring"), QStringLiteral("avoid what is inside"), {}};
  ring.path.addEllipse(QPointF(25, 20), 17, 13);
  CrayonStroke cross{
      QStringLiteral("A cross"), QStringLiteral("a hole to fill, where it crosses"), {}};
  cross.path.moveTo(12, 7);
  cross.path.lineTo(38, 33);
  cross.path.moveTo(38, 7);
  cross.path.lineTo(12, 33);
  CrayonStroke line{QStringLiteral("A long line along an edge"),
                    QStringLiteral("sapwood, from the line to that edge"),
                    {}};
  line.path.moveTo(2, 24);
  line.path.cubicTo(18, 18, 30, 28, 48, 22);
  CrayonStroke tick{QStringLiteral("A tick"), QStringLiteral("favour this spot"), {}};
  tick.path.moveTo(12, 22);
  tick.path.lineTo(21, 32);
  tick.path.lineTo(40, 8);
  return {ring, cross, line, tick};
}

void drawStroke(QPainter& painter, const CrayonStroke& stroke, const QRectF& row) {
  painter.save();
  painter.translate(row.left() + 8, row.top() + (row.height() - 40) / 2);
  painter.setPen(QPen(Qt::black, 3.2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  painter.setBrush(Qt::NoBrush);
  painter.drawPath(stroke.path);
  painter.restore();
  const double left = row.left() + 70, middle = row.center().y(), wide = row.width() - 74;
  const auto line = [&](double top, double high, const QString& text, bool bold) {
    // Left-aligned: the box is cut to the text by its own proportions.
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPixelSize(100);
    font.setBold(bold);
    const QFontMetricsF metrics(font);
    const double width =
        metrics.horizontalAdvance(text) * high / (metrics.capHeight() + metrics.descent());
    drawFitted(painter, {left, top, std::min(width, wide), high}, text, bold);
  };
  line(middle - 10, 8, stroke.title, true);
  line(middle + 2, 6.5, stroke.meaning, false);
}

}  // namespace

void drawCrayonPage(QPainter& painter, QSizeF paperMm) {
  painter.setRenderHint(QPainter::Antialiasing);
  const double margin = 15, width = paperMm.width() - 2 * margin;
  drawFitted(painter, {margin, 16, width, 9}, QStringLiteral("Four strokes of lumber crayon"),
             true);
  drawFitted(
      painter, {margin, 28, width, 5},
      QStringLiteral("One colour for a whole rack, unlike the wood: white, yellow, red or blue."));
  drawFitted(
      painter, {margin, 36, width, 5},
      QStringLiteral("Ring, cross and tick at least 50 mm (2 in) across, the line 150 mm (6 in) "
                     "long, clear of the edge."));
  const double top = 47, high = (paperMm.height() - top - 30) / 4;
  double y = top;
  for (const CrayonStroke& stroke : strokes()) {
    const QRectF row(margin, y, width, high - 4);
    painter.setPen(QPen(QColor(150, 150, 150), 0.3));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(row);
    drawStroke(painter, stroke, row);
    y += high;
  }
  drawFitted(painter, {margin, paperMm.height() - 24, width, 5},
             QStringLiteral("Each stroke becomes a suggested mark: nothing counts before you have "
                            "taken it."));
}

}  // namespace rackside::sheets
