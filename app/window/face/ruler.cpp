// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/face/ruler.h"

#include <cmath>

#include "app/window/look/theme.h"

namespace rackside {

namespace {

constexpr double kLeastTickPx = 5;

// Steps from coarse to fine, each a whole part of the one before.
std::vector<double> stepsMm(const LengthStyle& style) {
  std::vector<double> steps;
  if (style.system == UnitSystem::inches) {
    for (const double inches : {60.0, 12.0, 6.0, 3.0, 1.0}) steps.push_back(inches * kMmPerInch);
    for (int d = 2; d <= style.denominator; d *= 2) steps.push_back(kMmPerInch / d);
    return steps;
  }
  return {1000, 500, 100, 50, 10, 5, 1, 0.5, 0.1};
}

QString tickLabel(double mm, const LengthStyle& style) {
  LengthStyle fine = style;
  if (style.system == UnitSystem::millimetres && std::abs(mm - std::round(mm)) > 1e-6)
    fine.decimals = std::max(1, style.decimals);
  else
    fine.decimals = 0;
  return QString::fromStdString(formatLength(mm, fine, false));
}

double tickLength(int rank) {
  constexpr double kLengths[] = {12, 9, 6, 4, 3};
  return kLengths[std::min(rank, 4)];
}

// Clears the strip and sets font and pen.
QFontMetricsF begin(QPainter& painter, const QRectF& strip) {
  painter.setRenderHint(QPainter::Antialiasing, false);
  QFont font = painter.font();
  font.setPointSizeF(font.pointSizeF() * 0.85);
  painter.setFont(font);
  painter.setClipRect(strip);
  painter.fillRect(strip, colours().card);
  painter.setPen(colours().ink);
  return QFontMetricsF(font);
}

double labelRoom(const QFontMetricsF& metrics) {
  return metrics.horizontalAdvance(QStringLiteral("88 88/88")) + 8;
}

}  // namespace

std::vector<RulerTick> rulerTicks(double fromMm, double toMm, double pxPerMm, double labelPx,
                                  const LengthStyle& style) {
  const std::vector<double> steps = stepsMm(style);
  size_t finest = 0, labelled = 0;
  for (size_t i = 0; i < steps.size(); ++i) {
    if (steps[i] * pxPerMm >= kLeastTickPx) finest = i;
    if (steps[i] * pxPerMm >= labelPx) labelled = i;
  }
  std::vector<RulerTick> ticks;
  const double step = steps[finest];
  const auto first = static_cast<long long>(std::ceil(fromMm / step - 1e-9));
  const auto last = static_cast<long long>(std::floor(toMm / step + 1e-9));
  for (long long n = first; n <= last && ticks.size() < 5000; ++n) {
    RulerTick tick;
    tick.mm = static_cast<double>(n) * step;
    size_t rank = labelled;
    const auto falls = [&](double s) {
      return std::abs(tick.mm - s * std::round(tick.mm / s)) < step * 1e-3;
    };
    while (rank < finest && !falls(steps[rank])) ++rank;
    tick.rank = static_cast<int>(rank - labelled);
    if (tick.rank == 0) tick.label = tickLabel(tick.mm, style);
    ticks.push_back(tick);
  }
  return ticks;
}

void paintTopRuler(QPainter& painter, const QRectF& strip, const Ruler& ruler) {
  painter.save();
  const QFontMetricsF metrics = begin(painter, strip);
  const Rect seen = ruler.camera.visible();
  for (const RulerTick& tick :
       rulerTicks(seen.x0, seen.x1, ruler.camera.pxPerMm(), labelRoom(metrics), ruler.style)) {
    const double x = ruler.camera.toScreen({tick.mm, 0}).x();
    painter.drawLine(QPointF(x, strip.bottom() - tickLength(tick.rank)),
                     QPointF(x, strip.bottom()));
    if (!tick.label.isEmpty())
      painter.drawText(QPointF(x + 3, strip.top() + metrics.ascent() + 1), tick.label);
  }
  if (ruler.cursor) {
    const double x = ruler.camera.toScreen(*ruler.cursor).x();
    painter.setPen(QPen(colours().accent, 2));
    painter.drawLine(QPointF(x, strip.top()), QPointF(x, strip.bottom()));
  }
  painter.setPen(colours().line);
  painter.drawLine(strip.bottomLeft(), strip.bottomRight());
  painter.restore();
}

void paintLeftRuler(QPainter& painter, const QRectF& strip, const Ruler& ruler) {
  painter.save();
  const QFontMetricsF metrics = begin(painter, strip);
  const Rect seen = ruler.camera.visible();
  for (const RulerTick& tick :
       rulerTicks(seen.y0, seen.y1, ruler.camera.pxPerMm(), labelRoom(metrics), ruler.style)) {
    const double y = ruler.camera.toScreen({0, tick.mm}).y();
    painter.drawLine(QPointF(strip.right() - tickLength(tick.rank), y), QPointF(strip.right(), y));
    if (tick.label.isEmpty()) continue;
    painter.save();
    painter.translate(strip.left() + metrics.ascent() + 1, y - 3);
    painter.rotate(-90);
    painter.drawText(QPointF(0, 0), tick.label);
    painter.restore();
  }
  if (ruler.cursor) {
    const double y = ruler.camera.toScreen(*ruler.cursor).y();
    painter.setPen(QPen(colours().accent, 2));
    painter.drawLine(QPointF(strip.left(), y), QPointF(strip.right(), y));
  }
  painter.setPen(colours().line);
  painter.drawLine(strip.topRight(), strip.bottomRight());
  painter.restore();
}

void paintRulerCorner(QPainter& painter, const LengthStyle& style) {
  const QRectF corner(0, 0, kRulerPx, kRulerPx);
  painter.save();
  begin(painter, corner);
  painter.setPen(colours().faint);
  painter.drawText(
      corner, Qt::AlignCenter,
      style.system == UnitSystem::inches ? QStringLiteral("in") : QStringLiteral("mm"));
  painter.restore();
}

}  // namespace rackside
