// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/board_drawing.h"

#include <algorithm>
#include <cmath>

#include "app/sheets/board_labels.h"
#include "app/sheets/hatch.h"
#include "core/wood/clear_area.h"

namespace rackside::sheets {
namespace {

class BoardDrawing {
 public:
  BoardDrawing(Sheet& sheet, const Strip& strip, const Board& board, const BoardWork& work,
               const DrawingOptions& options)
      : sheet_(sheet), strip_(strip), board_(board), work_(work), options_(options) {}

  void draw(const FacePicture* picture) {
    QPainter& p = sheet_.painter();
    const QRectF clip = strip_.box().adjusted(-1, -1, 1, 1);
    p.save();
    p.setClipRect(clip, Qt::IntersectClip);
    if (picture) drawPicture(*picture);
    fillPattern(p, strip_.path(work_.waste), Pattern::wide);
    drawMarks(otherFace(options_.face));
    drawMarks(options_.face);
    drawPieces();
    drawCuts();
    drawOutline();
    p.restore();
    drawLabels(sheet_, strip_, board_, work_, options_);
  }

 private:
  void drawPicture(const FacePicture& picture) {
    QPainter& p = sheet_.painter();
    const QTransform paperFromBoard(strip_.scale, 0, 0, -strip_.scale,
                                    strip_.origin.x() - strip_.x0 * strip_.scale,
                                    strip_.origin.y() + strip_.yBottom * strip_.scale);
    p.save();
    p.setClipPath(strip_.path({board_.outline.polygon()}), Qt::IntersectClip);
    p.save();
    p.setTransform(picture.boardFromImage * paperFromBoard, true);
    p.drawImage(QPointF(0, 0), picture.image);
    p.restore();
    // A veil keeps dark wood from swallowing lines and words.
    p.fillRect(strip_.box(), QColor(255, 255, 255, 115));
    p.restore();
  }

  void drawMarks(Face face) {
    QPainter& p = sheet_.painter();
    const bool shown = face == options_.face;
    for (const Mark& mark : board_.marks) {
      if (!mark.confirmed || !mark.on(face) || (!shown && mark.on(options_.face))) continue;
      const QPainterPath path = strip_.path(polygonsOf(*mark.on(face)));
      if (shown) fillPattern(p, path, patternOf(mark));
      p.setPen(QPen(Qt::white, 0.7));
      p.drawPath(path);
      p.setPen(QPen(Qt::black, 0.3, shown ? Qt::SolidLine : Qt::DashLine));
      p.drawPath(path);
    }
  }

  void drawPieces() {
    QPainter& p = sheet_.painter();
    for (const PieceLine& line : work_.pieces) {
      if (line.blank) {
        p.setPen(QPen(Qt::black, 0.2, Qt::DashLine));
        p.drawPath(strip_.path({line.blank->roughOutline()}));
      }
      const QPainterPath path = strip_.path({line.piece->outline});
      p.fillPath(path, QColor(255, 255, 255, 120));
      p.setPen(QPen(Qt::black, 0.55, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
      p.drawPath(path);
    }
  }

  void drawCuts() {
    for (const CutStep& step : work_.steps) {
      const QPointF a = strip_.at(step.cut->line.from), b = strip_.at(step.cut->line.to);
      sheet_.line(a, b, 0.9, QColor(255, 255, 255, 200));
      sheet_.line(a, b, 0.35, Qt::black, Qt::DashDotLine);
    }
  }

  void drawOutline() {
    QPainter& p = sheet_.painter();
    const auto& v = board_.outline.vertices;
    for (size_t i = 0; i < v.size(); ++i) {
      const bool known = v[i].state == EdgeState::sure || v[i].state == EdgeState::drawn;
      p.setPen(QPen(Qt::black, 0.4, known ? Qt::SolidLine : Qt::DotLine, Qt::RoundCap));
      p.drawLine(strip_.at(v[i].at), strip_.at(v[(i + 1) % v.size()].at));
    }
  }

  Sheet& sheet_;
  const Strip& strip_;
  const Board& board_;
  const BoardWork& work_;
  const DrawingOptions& options_;
};

}  // namespace

StripLayout layOutWithLabels(const Board& board, const BoardWork& work, const QRectF& room,
                             const DrawingOptions& options) {
  int above = 1, below = 1;
  for (;;) {
    StripLayout layout = layOut(board, room, 2 + above * kAboveLaneMm, 2 + below * kBelowLaneMm);
    int needAbove = above, needBelow = below;
    for (const Strip& strip : layout.strips) {
      const StripLabels labels =
          labelsFor(strip, board, work, options.face, options.lengths, room.left(), room.right());
      needAbove = std::max(needAbove, labels.lanesAbove);
      needBelow = std::max(needBelow, labels.lanesBelow);
    }
    if (needAbove == above && needBelow == below) return layout;
    above = needAbove;
    below = needBelow;
  }
}

void drawBoard(Sheet& sheet, const Strip& strip, const Board& board, const BoardWork& work,
               const FacePicture* picture, const DrawingOptions& options) {
  BoardDrawing(sheet, strip, board, work, options).draw(picture);
}

double drawScaleBar(Sheet& sheet, QPointF leftMiddle, double scale, double maxWidth,
                    const LengthStyle& lengths) {
  const bool inches = lengths.system == UnitSystem::inches;
  const double unit = inches ? kMmPerInch : 1;
  const double lengthsMm[] = {1000, 500, 200, 100, 50};
  const double lengthsIn[] = {36, 24, 12, 6, 3};
  double length = (inches ? lengthsIn : lengthsMm)[4] * unit;
  for (const double l : inches ? lengthsIn : lengthsMm)
    if (l * unit * scale <= maxWidth) {
      length = l * unit;
      break;
    }
  const double width = length * scale;
  const double y = leftMiddle.y();
  for (int i = 0; i < 4; ++i)  // four fields, black and white by turns
    sheet.box(QRectF(leftMiddle.x() + width * i / 4, y - 0.8, width / 4, 1.6), 0.2,
              i % 2 ? Qt::white : Qt::black);
  const QString text = "0 to " + QString::fromStdString(formatLength(length, lengths));
  const TextLook look{3.0};
  const double textWidth = Sheet::textSize(text, look).width();
  sheet.text(QRectF(leftMiddle.x() + width + 1.5, y - 2.5, textWidth + 0.5, 5), text, look);
  return width + 2 + textWidth;
}

}  // namespace rackside::sheets
