// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/board_strip.h"

#include <algorithm>
#include <cmath>

namespace rackside::sheets {
namespace {

// Scales a bench drawing may have; beyond the last, multiples of 5.
constexpr double kScales[] = {1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20};
// From here on names in the pieces get too small to read at arm's length: split the board instead.
constexpr double kLargestDenominatorWhole = 10;
// Each stretch repeats this much of its neighbour, so that nothing is lost at the break.
constexpr double kOverlapMm = 20;

double roundScale(double denominator) {
  for (const double s : kScales)
    if (s >= denominator) return s;
  return std::ceil(denominator / 5) * 5;
}

}  // namespace

QPainterPath Strip::path(const Polygons& shape) const {
  QPainterPath path;
  path.setFillRule(Qt::OddEvenFill);
  for (const Polygon& polygon : shape) {
    if (polygon.size() < 3) continue;
    path.moveTo(at(polygon.front()));
    for (size_t i = 1; i < polygon.size(); ++i) path.lineTo(at(polygon[i]));
    path.closeSubpath();
  }
  return path;
}

StripLayout layOut(const Board& board, const QRectF& room, double aboveMm, double belowMm) {
  const Rect all = bounds(board.outline.polygon());
  StripLayout best;
  for (int count = 1; count <= 3; ++count) {
    const double length = all.width() / count + (count > 1 ? 2 * kOverlapMm : 0);
    const double heightEach = room.height() / count - aboveMm - belowMm;
    if (heightEach < 8 && count > 1) break;
    const double denominator =
        roundScale(std::max({1.0, length / room.width(), all.height() / heightEach}));
    if (count > 1 && denominator >= best.denominator) continue;
    best = {{}, denominator, 0};
    const double each = all.height() / denominator + aboveMm + belowMm;
    for (int i = 0; i < count; ++i) {
      Strip s;
      s.x0 = std::max(all.x0, all.x0 + all.width() * i / count - (i > 0 ? kOverlapMm : 0));
      s.x1 = std::min(all.x1, all.x0 + all.width() * (i + 1) / count + kOverlapMm);
      s.yBottom = all.y0;
      s.yTop = all.y1;
      s.scale = 1 / denominator;
      s.origin = QPointF(room.left(), room.top() + each * i + aboveMm + all.height() / denominator);
      best.strips.push_back(s);
    }
    if (count == 1) best.strips[0].x0 = all.x0, best.strips[0].x1 = all.x1;
    best.heightMm = each * count;
    if (denominator <= kLargestDenominatorWhole) break;
  }
  return best;
}

}  // namespace rackside::sheets
