// SPDX-License-Identifier: GPL-3.0-or-later
// The items of the plan: pieces lie on the board like paper templates, cuts cross it with their
// number.
#include <QLineF>

#include "app/window/face/face_item.h"
#include "app/window/look/text.h"

namespace rackside {

namespace {
const QColor kPaper(0xFF, 0xFC, 0xF2, 205);
const QColor kPaperChosen(0xDD, 0xF3, 0xEC, 235);
const QColor kPencil(0x2B, 0x28, 0x24);
const QColor kCut(0x12, 0x3C, 0x8C);
const QColor kMade(0x6B, 0x66, 0x5E);
}  // namespace

PieceItem::PieceItem(const Piece& piece, const Blank* blank, QString label, bool pinned)
    : piece_(piece), label_(std::move(label)), pinned_(pinned) {
  setPath(pathOf(piece.outline));
  if (blank) blank_ = pathOf(blank->roughOutline());
}

void PieceItem::paint(const ItemPaint& paint) const {
  QPainter& painter = paint.painter;
  const QTransform t = paint.camera.screenFromBoard();
  painter.setBrush(QColor(255, 252, 242, 60));
  painter.setPen(QPen(QColor(255, 252, 242, 230), 1.2, Qt::DashLine));
  painter.drawPath(t.map(blank_));
  painter.setBrush(paint.chosen ? kPaperChosen : kPaper);
  painter.setPen(QPen(kPencil, paint.chosen ? 2.5 : 1.2));
  painter.drawPath(t.map(path()));

  const QRectF at = t.mapRect(path().boundingRect());
  const bool upright = at.height() > at.width() * 1.2;
  const double along = upright ? at.height() : at.width();
  const double across = upright ? at.width() : at.height();
  QFont font = painter.font();
  font.setBold(true);
  const QFontMetricsF metrics(font);
  if (across < metrics.height() * 0.8 || along < 24) return;
  painter.save();
  painter.setFont(font);
  painter.setPen(kPencil);
  painter.translate(at.center());
  if (upright) painter.rotate(-90);
  const QRectF box(-along / 2 + 4, -across / 2, along - 8, across);
  QStringList lines{(pinned_ ? QStringLiteral("● ") : QString()) + label_};
  if (across > metrics.height() * 2.2)
    lines << QStringLiteral("%1 × %2").arg(lengthText(piece_.lengthMm, paint.lengths),
                                           lengthText(piece_.widthMm, paint.lengths));
  for (QString& line : lines) line = metrics.elidedText(line, Qt::ElideRight, box.width());
  painter.drawText(box, Qt::AlignCenter, lines.join(QLatin1Char('\n')));
  painter.restore();
}

bool PieceItem::hit(Point board, double toleranceMm) const {
  return pathHit(board, toleranceMm, true);
}

CutItem::CutItem(const Cut& cut) : cut_(cut) {
  QPainterPath path;
  path.moveTo(cut.line.from.x, cut.line.from.y);
  path.lineTo(cut.line.to.x, cut.line.to.y);
  setPath(path);
}

void CutItem::paint(const ItemPaint& paint) const {
  QPainter& painter = paint.painter;
  const QPointF from = paint.camera.toScreen(cut_.line.from);
  const QPointF to = paint.camera.toScreen(cut_.line.to);
  const double kerfPx = std::max(1.5, cut_.kerfMm * paint.camera.pxPerMm());
  painter.setPen(QPen(QColor(255, 255, 255, 170), kerfPx + 2.5, Qt::SolidLine, Qt::FlatCap));
  painter.drawLine(from, to);
  const QColor colour = cut_.made ? kMade : kCut;
  painter.setPen(QPen(colour, kerfPx, cut_.firstRip ? Qt::DashLine : Qt::SolidLine, Qt::FlatCap));
  painter.drawLine(from, to);
  // The number stands just off the end where the cut starts, so that it hides no wood.
  const QLineF line(to, from);
  if (line.length() < 1) return;
  const QPointF out = from + QPointF(line.unitVector().dx(), line.unitVector().dy()) * 13;
  const QString number = QString::number(cut_.order);
  paintPlate(painter, out, cut_.made ? QStringLiteral("✓ ") + number : number, Qt::white, colour);
}

bool CutItem::hit(Point board, double toleranceMm) const {
  return pathHit(board, toleranceMm, false);
}

}  // namespace rackside
