// SPDX-License-Identifier: GPL-3.0-or-later
// The items of the wood itself: outline and marks.
#include <algorithm>

#include "app/window/face/face_item.h"
#include "app/window/look/mark_look.h"
#include "app/window/look/text.h"

namespace rackside {

namespace {

// Seen, doubtful, bridged under a card, drawn by the maker: told by dash first, then by colour.
QPen penOf(EdgeState state) {
  switch (state) {
    case EdgeState::unsure:
      return QPen(QColor(0xFF, 0xB0, 0x2E), 2, Qt::DashLine);
    case EdgeState::bridged:
      return QPen(QColor(0xFF, 0xE4, 0xA8), 2, Qt::DotLine);
    case EdgeState::drawn:
      return QPen(QColor(0x8F, 0xD8, 0xFF), 2, Qt::DashDotLine);
    case EdgeState::sure:
      break;
  }
  return QPen(QColor(0xFF, 0xFF, 0xFF), 2, Qt::SolidLine);
}

// A suggestion is dashed, the more closely the surer it is, and never solid.
Qt::PenStyle suggestedLine(double confidence) {
  return confidence >= 0.8 ? Qt::DashLine : Qt::DotLine;
}

const QColor kHalo(0, 0, 0, 130);

// A dark rim, so that a line is seen on pale wood too. Most of the time of a frame goes into smooth
// lines, and under the line proper nobody sees that the rim is not smooth.
void paintHalo(QPainter& painter, const QPainterPath& path, double widthPx) {
  painter.setRenderHint(QPainter::Antialiasing, false);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(kHalo, widthPx, Qt::SolidLine, Qt::FlatCap, Qt::BevelJoin));
  painter.drawPath(path);
  painter.setRenderHint(QPainter::Antialiasing);
}

}  // namespace

OutlineItem::OutlineItem(const Outline& outline) : outline_(outline) {
  setPath(pathOf(outline.polygon()));
}

void OutlineItem::paint(const ItemPaint& paint) const {
  QPainter& painter = paint.painter;
  const QTransform t = paint.camera.screenFromBoard();
  paintHalo(painter, t.map(path()), 4);
  painter.setBrush(Qt::NoBrush);
  const auto& v = outline_.vertices;
  for (size_t i = 0; i < v.size();) {
    QPainterPath run;
    const EdgeState state = v[i].state;
    run.moveTo(v[i].at.x, v[i].at.y);
    for (; i < v.size() && v[i].state == state; ++i) {
      const Point next = v[(i + 1) % v.size()].at;
      run.lineTo(next.x, next.y);
    }
    QPen pen = penOf(state);
    pen.setCapStyle(Qt::FlatCap);
    painter.setPen(pen);
    painter.drawPath(t.map(run));
  }
}

bool OutlineItem::hit(Point board, double toleranceMm) const {
  return pathHit(board, toleranceMm, false);
}

MarkItem::MarkItem(const Mark& mark, Face face) : mark_(mark), here_(mark.on(face).has_value()) {
  const auto& shape = here_ ? mark.on(face) : mark.on(otherFace(face));
  if (!shape) return;
  QPainterPath path;
  if (const auto* stroke = std::get_if<Stroke>(&*shape); stroke && stroke->points.size() > 1) {
    path.moveTo(stroke->points[0].x, stroke->points[0].y);
    for (const Point p : stroke->points) path.lineTo(p.x, p.y);
    path.addPath(pathOf(polygonsOf(*shape)));
  } else if (const auto* e = std::get_if<Ellipse>(&*shape)) {
    path.addEllipse(QPointF(0, 0), e->semiX, e->semiY);  // far fewer points than its polygon
    path = (QTransform().rotateRadians(e->angleRad) *
            QTransform::fromTranslate(e->centre.x, e->centre.y))
               .map(path);
  } else {
    path = pathOf(polygonsOf(*shape));
  }
  path.setFillRule(Qt::WindingFill);
  setPath(path);
}

void MarkItem::paint(const ItemPaint& paint) const {
  const MarkLook& look = markLook(mark_.kind);
  QPainter& painter = paint.painter;
  const QPainterPath shape = paint.camera.screenFromBoard().map(path());
  painter.setBrushOrigin(paint.camera.toScreen({0, 0}));
  if (!here_) {
    painter.setBrush(Qt::NoBrush);
    QColor through = look.colour;
    through.setAlpha(mark_.through ? 230 : 140);
    painter.setPen(QPen(through, 1.5, Qt::DotLine));
    painter.drawPath(shape);
    if (paint.chosen || mark_.through) paintTag(paint);
    return;
  }
  QColor fill = look.colour;
  fill.setAlpha(mark_.confirmed ? 190 : qRound(20 + 80 * mark_.confidence));
  paintHalo(painter, shape, paint.chosen ? 6 : 4);
  painter.setBrush(QBrush(fill, look.pattern));
  painter.setPen(QPen(paint.chosen ? QColor(Qt::white) : look.colour, paint.chosen ? 3 : 2,
                      mark_.confirmed ? look.outline : suggestedLine(mark_.confidence)));
  painter.drawPath(shape);
  paintTag(paint);
}

// Letters always; the whole name once the mark is large enough on the screen, or chosen.
void MarkItem::paintTag(const ItemPaint& paint) const {
  const MarkLook& look = markLook(mark_.kind);
  const double widthPx = box().width() * paint.camera.pxPerMm();
  QString text = look.letters;
  if (paint.chosen || widthPx > 90) {
    text = look.label;
    if (mark_.soundness != Soundness::unknown)
      text += QStringLiteral(", ") + soundnessLabel(mark_.kind, mark_.soundness);
    if (mark_.live) text += QStringLiteral(", live");
    if (mark_.through)
      text += QStringLiteral(", through");
    else if (mark_.depthMm)
      text += QStringLiteral(", %1 deep").arg(lengthText(*mark_.depthMm, paint.lengths));
  }
  if (!mark_.confirmed)
    text += paint.chosen ? QStringLiteral("? %1 % sure").arg(qRound(100 * mark_.confidence))
                         : QStringLiteral("?");
  if (!here_) text += QStringLiteral(" (other face)");
  const QRectF at = paint.camera.screenFromBoard().mapRect(path().boundingRect());
  QFont font = paint.painter.font();
  font.setBold(true);
  paint.painter.setFont(font);
  const QFontMetricsF metrics(font);
  const double lift = metrics.height() / 2 + 5, half = metrics.horizontalAdvance(text) / 2 + 8;
  const QRectF view = paint.camera.viewport();
  if (at.bottom() < view.top() || at.right() < view.left() || at.left() > view.right()) return;
  const QPointF plate(std::clamp(at.center().x(), view.left() + half,
                                 std::max(view.left() + half, view.right() - half)),
                      std::max(at.top() - lift, view.top() + lift));  // a name is never cut off
  paintPlate(paint.painter, plate, text, Qt::white, QColor(look.colour.darker(170)));
}

bool MarkItem::hit(Point board, double toleranceMm) const {
  return here_ && pathHit(board, toleranceMm, true);
}

}  // namespace rackside
