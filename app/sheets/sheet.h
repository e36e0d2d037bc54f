// SPDX-License-Identifier: GPL-3.0-or-later
// One page to draw on, in millimetres of paper: x right, y down from the top left corner. Text
// never leaves the box it is given: it shrinks to a stated least size, then it is cut short with an
// ellipsis. Every text drawn is recorded, so that a test can see that none is clipped or covered.
#pragma once

#include <QColor>
#include <QPainter>
#include <QPainterPath>
#include <QString>
#include <vector>

namespace rackside::sheets {

struct TextLook {
  double sizeMm = 3.6;  // of the em square
  bool bold = false;
  double leastMm = 2.4;  // smallest size before the text is cut short
  QColor colour = Qt::black;
  bool plate = false;  // a white ground, for text over wood
};

struct DrawnText {
  QRectF inkMm;  // tight box of what was inked, on the page
  QString text;
  bool cutShort = false;
};

class Sheet {
 public:
  static constexpr double kMarginMm = 10;  // desk printers leave 4 to 6 mm blank

  // The painter's device has pxPerMm pixels a millimetre; the page starts at its origin.
  Sheet(QPainter& painter, QSizeF pageMm, double pxPerMm);
  ~Sheet();
  Sheet(const Sheet&) = delete;
  Sheet& operator=(const Sheet&) = delete;

  QRectF page() const { return QRectF(QPointF(0, 0), pageMm_); }
  QRectF area() const;  // inside the margins

  // One line inside the box.
  void text(const QRectF& box, const QString& text, const TextLook& look,
            Qt::Alignment align = Qt::AlignLeft | Qt::AlignVCenter);
  // Lines wrapped at words from the box's top; what does not fit the height is cut short with an
  // ellipsis. Returns the height used.
  double paragraph(const QRectF& box, const QString& text, const TextLook& look);
  static QSizeF textSize(const QString& text, const TextLook& look);
  static double paragraphHeight(double widthMm, const QString& text, const TextLook& look);
  static double lineHeight(const TextLook& look);

  // Painting in millimetres.
  QPainter& painter() { return painter_; }
  void line(QPointF a, QPointF b, double widthMm, QColor colour = Qt::black,
            Qt::PenStyle style = Qt::SolidLine);
  void box(const QRectF& r, double widthMm, QColor fill = Qt::transparent);
  // A number in a ring, as cuts carry.
  void ring(QPointF centre, double diameterMm, const QString& number, bool filled = false);

  const std::vector<DrawnText>& drawnTexts() const { return drawn_; }

 private:
  void drawLine(const QRectF& box, const QString& text, TextLook look, Qt::Alignment align);

  QPainter& painter_;
  QSizeF pageMm_;
  std::vector<DrawnText> drawn_;
};

}  // namespace rackside::sheets
