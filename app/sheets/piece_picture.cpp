// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/piece_picture.h"

#include "app/sheets/face_picture.h"

namespace rackside::sheets {
namespace {

constexpr double kPrintMmPerPx = 25.4 / 200;

}  // namespace

QTransform paperFromBoard(const Rect& box, Face face, const QRectF& room) {
  const double scale = std::min(room.width() / box.width(), room.height() / box.height());
  return face == Face::A ? QTransform(scale, 0, 0, -scale, room.left() - box.x0 * scale,
                                      room.top() + box.y1 * scale)
                         : QTransform(-scale, 0, 0, -scale, room.left() + box.x1 * scale,
                                      room.top() + box.y1 * scale);
}

QPainterPath pathOnPaper(const Polygons& shapes, const QTransform& paperFromBoard) {
  QPainterPath path;
  for (const Polygon& p : shapes) {
    QPolygonF q;
    for (const Point& v : p) q << paperFromBoard.map(QPointF(v.x, v.y));
    path.addPolygon(q);
    path.closeSubpath();
  }
  return path;
}

void drawPieceFace(Sheet& sheet, const PackInput& in, const Board& board, const Piece& piece,
                   Face face, const QTransform& paperFromBoard) {
  const QPainterPath outline = pathOnPaper({piece.outline}, paperFromBoard);
  QPainter& painter = sheet.painter();
  const double mmPerPx = kPrintMmPerPx / std::abs(paperFromBoard.m11());
  if (const auto picture = readFacePicture(board, face, in.folder, mmPerPx)) {
    const Rect b = bounds(piece.outline);
    // Only what shows goes into the file.
    const QRect part = picture->boardFromImage.inverted()
                           .mapRect(QRectF(b.x0, b.y0, b.width(), b.height()))
                           .toAlignedRect()
                           .adjusted(-1, -1, 1, 1) &
                       picture->image.rect();
    painter.save();
    painter.setClipPath(outline);
    painter.setTransform(picture->boardFromImage * paperFromBoard, true);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(part.topLeft(), picture->image.copy(part));
    painter.restore();
  }
  painter.strokePath(outline, QPen(Qt::black, 0.3));
}

}  // namespace rackside::sheets
