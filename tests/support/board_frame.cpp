// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/board_frame.h"

#include <algorithm>
#include <cmath>

namespace rackside::synthetic {
namespace {

struct Span {
  double low = 0, high = 0;
};

std::optional<Span> spanAt(const Polygon& p, double x) {
  std::optional<Span> span;
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i];
    const Point b = p[(i + 1) % p.size()];
    if (std::min(a.x, b.x) > x || std::max(a.x, b.x) < x || a.x == b.x) continue;
    const double y = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
    if (!span) span = Span{y, y};
    span = Span{std::min(span->low, y), std::max(span->high, y)};
  }
  return span;
}

struct Extent {
  Point low{1e300, 1e300}, high{-1e300, -1e300};
};

Extent extentOf(const Polygon& p) {
  Extent e;
  for (const Point& q : p) {
    e.low = {std::min(e.low.x, q.x), std::min(e.low.y, q.y)};
    e.high = {std::max(e.high.x, q.x), std::max(e.high.y, q.y)};
  }
  return e;
}

// Slope of the line through the middles of cross sections, every millimetre.
double slopeOfMiddles(const Polygon& p) {
  const Extent e = extentOf(p);
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (double x = e.low.x + 0.5; x < e.high.x; x += 1) {
    const auto s = spanAt(p, x);
    if (!s) continue;
    const double y = 0.5 * (s->low + s->high);
    n += 1, sx += x, sy += y, sxx += x * x, sxy += x * y;
  }
  return (n * sxy - sx * sy) / (n * sxx - sx * sx);
}

}  // namespace

Pose boardFrameOf(const Polygon& outline) {
  double angle = 0;
  for (int round = 0; round < 5; ++round) {
    angle -= std::atan(slopeOfMiddles(rackside::apply(Pose{{0, 0}, angle}, outline)));
  }
  const Extent e = extentOf(rackside::apply(Pose{{0, 0}, angle}, outline));
  return {{-e.low.x, -e.low.y}, angle};
}

std::optional<double> chordAt(const Polygon& outline, double x) {
  const auto s = spanAt(outline, x);
  if (!s) return std::nullopt;
  return s->high - s->low;
}

std::vector<WidthAt> chordsEvery(const Polygon& outline, double stepMm) {
  std::vector<WidthAt> widths;
  const Extent e = extentOf(outline);
  for (double x = stepMm; x < e.high.x; x += stepMm) {
    if (const auto w = chordAt(outline, x)) widths.push_back({x, *w});
  }
  return widths;
}

}  // namespace rackside::synthetic
