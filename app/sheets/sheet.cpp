// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/sheet.h"

#include <QFontMetricsF>
#include <QStringList>
#include <algorithm>

namespace rackside::sheets {
namespace {

// Text is laid out at this many units a millimetre whatever the device, so that a page reads the
// same on paper and on screen.
constexpr double kUnitsPerMm = 50;
constexpr double kLineSpacing = 1.28;

QFont fontOf(const TextLook& look) {
  QFont font(QStringLiteral("Sans Serif"));
  font.setStyleHint(QFont::SansSerif);
  font.setHintingPreference(QFont::PreferNoHinting);
  font.setPixelSize(std::max(1, qRound(look.sizeMm * kUnitsPerMm)));
  font.setBold(look.bold);
  return font;
}

double widthMm(const QString& text, const TextLook& look) {
  return QFontMetricsF(fontOf(look)).horizontalAdvance(text) / kUnitsPerMm;
}

// Shrinks the look until the text fits the width, no further than its least size.
TextLook fitted(const QString& text, TextLook look, double roomMm) {
  const double width = widthMm(text, look);
  if (width > roomMm && width > 0)
    look.sizeMm = std::max(look.leastMm, look.sizeMm * roomMm / width * 0.995);
  return look;
}

QStringList wrapped(const QString& text, const TextLook& look, double roomMm) {
  QStringList lines;
  for (const QString& paragraph : text.split('\n')) {
    QString line;
    for (const QString& word : paragraph.split(' ')) {
      const QString longer = line.isEmpty() ? word : line + ' ' + word;
      if (!line.isEmpty() && widthMm(longer, look) > roomMm) {
        lines << line;
        line = word;
      } else {
        line = longer;
      }
    }
    lines << line;
  }
  return lines;
}

}  // namespace

Sheet::Sheet(QPainter& painter, QSizeF pageMm, double pxPerMm)
    : painter_(painter), pageMm_(pageMm) {
  painter_.save();
  painter_.scale(pxPerMm, pxPerMm);
  painter_.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing |
                          QPainter::SmoothPixmapTransform);
}

Sheet::~Sheet() {
  painter_.restore();
}

QRectF Sheet::area() const {
  return page().adjusted(kMarginMm, kMarginMm, -kMarginMm, -kMarginMm);
}

QSizeF Sheet::textSize(const QString& text, const TextLook& look) {
  const QFontMetricsF metrics(fontOf(look));
  return QSizeF(metrics.horizontalAdvance(text), metrics.ascent() + metrics.descent()) /
         kUnitsPerMm;
}

double Sheet::lineHeight(const TextLook& look) {
  return look.sizeMm * kLineSpacing;
}

double Sheet::paragraphHeight(double width, const QString& text, const TextLook& look) {
  return double(wrapped(text, look, width).size()) * lineHeight(look);
}

void Sheet::text(const QRectF& box, const QString& text, const TextLook& look,
                 Qt::Alignment align) {
  if (!text.isEmpty()) drawLine(box, text, fitted(text, look, box.width()), align);
}

double Sheet::paragraph(const QRectF& box, const QString& text, const TextLook& look) {
  QStringList lines = wrapped(text, look, box.width());
  const double step = lineHeight(look);
  const auto room = std::max<qsizetype>(1, qsizetype((box.height() + 1e-6) / step));
  if (lines.size() > room) {
    lines = lines.mid(0, room);
    lines.last() += QChar(0x2026);
  }
  double y = box.top();
  for (const QString& l : lines) {
    this->text(QRectF(box.left(), y, box.width(), step), l, look);
    y += step;
  }
  return y - box.top();
}

void Sheet::drawLine(const QRectF& box, const QString& text, TextLook look, Qt::Alignment align) {
  const QFont font = fontOf(look);
  const QFontMetricsF metrics(font);
  const QString shown = metrics.elidedText(text, Qt::ElideRight, box.width() * kUnitsPerMm + 1);
  const double width = metrics.horizontalAdvance(shown) / kUnitsPerMm;
  const double height = (metrics.ascent() + metrics.descent()) / kUnitsPerMm;
  double x = box.left();
  if (align & Qt::AlignHCenter) x += (box.width() - width) / 2;
  if (align & Qt::AlignRight) x += box.width() - width;
  double top = box.top() + (box.height() - height) / 2;
  if (align & Qt::AlignTop) top = box.top();
  if (align & Qt::AlignBottom) top = box.bottom() - height;
  const QPointF baseline(x, top + metrics.ascent() / kUnitsPerMm);
  const QRectF ink = metrics.tightBoundingRect(shown);
  const QRectF inkMm(baseline + ink.topLeft() / kUnitsPerMm, ink.size() / kUnitsPerMm);
  if (look.plate)
    painter_.fillRect(inkMm.adjusted(-0.5, -0.4, 0.5, 0.4), QColor(255, 255, 255, 215));
  painter_.save();
  painter_.setFont(font);
  painter_.setPen(look.colour);
  painter_.translate(baseline);
  painter_.scale(1 / kUnitsPerMm, 1 / kUnitsPerMm);
  painter_.drawText(QPointF(0, 0), shown);
  painter_.restore();
  drawn_.push_back({painter_.transform().isRotating() ? QRectF() : inkMm, shown, shown != text});
}

void Sheet::line(QPointF a, QPointF b, double width, QColor colour, Qt::PenStyle style) {
  QPen pen(colour, width, style, Qt::FlatCap);
  painter_.setPen(pen);
  painter_.drawLine(a, b);
}

void Sheet::box(const QRectF& r, double width, QColor fill) {
  painter_.setPen(width > 0 ? QPen(Qt::black, width, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin)
                            : QPen(Qt::NoPen));
  painter_.setBrush(fill);
  painter_.drawRect(r);
  painter_.setBrush(Qt::NoBrush);
}

void Sheet::ring(QPointF centre, double diameter, const QString& number, bool filled) {
  painter_.setPen(QPen(Qt::black, 0.35));
  painter_.setBrush(filled ? Qt::black : Qt::white);
  painter_.drawEllipse(centre, diameter / 2, diameter / 2);
  painter_.setBrush(Qt::NoBrush);
  TextLook look{diameter * 0.68, true, diameter * 0.36, filled ? Qt::white : Qt::black, false};
  const double inner = diameter * 0.78;
  text(QRectF(centre.x() - inner / 2, centre.y() - inner / 2, inner, inner), number, look,
       Qt::AlignCenter);
}

}  // namespace rackside::sheets
