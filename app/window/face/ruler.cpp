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

void paintRulers(QPainter& painter, const QRectF& whole, const FaceCamera& camera,
                 const LengthStyle& style, const std::optional<Point>& cursor) {
  const Colours& c = colours();
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing, false);
  QFont font = painter.font();
  font.setPointSizeF(font.pointSizeF() * 0.85);
  painter.setFont(font);
  const QFontMetricsF metrics(font);
  const QRectF top(whole.left(), whole.top(), whole.width(), kRulerPx);
  const QRectF left(whole.left(), whole.top(), kRulerPx, whole.height());
  painter.fillRect(top, c.card);
  painter.fillRect(left, c.card);
  const Rect seen = camera.visible();

  painter.setPen(c.ink);
  const double labelPx = metrics.horizontalAdvance(QStringLiteral("88 88/88")) + 8;
  painter.setClipRect(top.adjusted(kRulerPx, 0, 0, 0));
  for (const RulerTick& tick : rulerTicks(seen.x0, seen.x1, camera.pxPerMm(), labelPx, style)) {
    const double x = camera.toScreen({tick.mm, 0}).x();
    painter.drawLine(QPointF(x, kRulerPx - tickLength(tick.rank)), QPointF(x, kRulerPx));
    if (!tick.label.isEmpty()) painter.drawText(QPointF(x + 3, metrics.ascent() + 1), tick.label);
  }
  painter.setClipRect(left.adjusted(0, kRulerPx, 0, 0));
  for (const RulerTick& tick : rulerTicks(seen.y0, seen.y1, camera.pxPerMm(), labelPx, style)) {
    const double y = camera.toScreen({0, tick.mm}).y();
    painter.drawLine(QPointF(kRulerPx - tickLength(tick.rank), y), QPointF(kRulerPx, y));
    if (tick.label.isEmpty()) continue;
    painter.save();
    painter.translate(metrics.ascent() + 1, y - 3);
    painter.rotate(-90);
    painter.drawText(QPointF(0, 0), tick.label);
    painter.restore();
  }
  painter.setClipping(false);
  if (cursor) {
    const QPointF at = camera.toScreen(*cursor);
    painter.setPen(QPen(c.accent, 2));
    if (at.x() > kRulerPx) painter.drawLine(QPointF(at.x(), 0), QPointF(at.x(), kRulerPx));
    if (at.y() > kRulerPx) painter.drawLine(QPointF(0, at.y()), QPointF(kRulerPx, at.y()));
  }
  painter.fillRect(QRectF(0, 0, kRulerPx, kRulerPx), c.card);
  painter.setPen(c.faint);
  painter.drawText(
      QRectF(0, 0, kRulerPx, kRulerPx), Qt::AlignCenter,
      style.system == UnitSystem::inches ? QStringLiteral("in") : QStringLiteral("mm"));
  painter.setPen(c.line);
  painter.drawLine(top.bottomLeft(), top.bottomRight());
  painter.drawLine(left.topRight(), left.bottomRight());
  painter.restore();
}

}  // namespace rackside
