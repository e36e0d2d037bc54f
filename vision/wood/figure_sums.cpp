// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/figure_sums.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

// The y between which the upright line at x lies inside the polygon (from the lowest to the highest
// border met).
bool chordAt(const Polygon& p, double x, double& low, double& high) {
  low = 1e18, high = -1e18;
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    if ((a.x <= x) == (b.x <= x)) continue;
    const double y = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
    low = std::min(low, y), high = std::max(high, y);
  }
  return low < high;
}

double deviation(double square, double mean) {
  return std::sqrt(std::max(0.0, square - mean * mean));
}

}  // namespace

FigureSums::FigureSums(const FigureMaps& maps)
    : area_(maps.area),
      cellMm_(maps.cellMm),
      columns_(maps.columns),
      rows_(maps.rows),
      table_(size_t(maps.columns + 1) * (maps.rows + 1)) {
  const double cell = cellMm_ * cellMm_;
  const size_t stride = size_t(columns_) + 1;
  for (int r = 0; r < rows_; ++r) {
    Sum row{};
    for (int c = 0; c < columns_; ++c) {
      auto& here = table_[(r + 1) * stride + c + 1];
      const auto& below = table_[r * stride + c + 1];
      for (size_t k = 0; k < kFigureLayers; ++k) {
        row[k] += cell * maps.layers[k][size_t(r) * columns_ + c];
        here[k] = float(below[k] + row[k]);
      }
    }
  }
}

void FigureSums::corner(double x, double y, double sign, Sum& sum) const {
  const double u = std::clamp((x - area_.x0) / cellMm_, 0.0, double(columns_));
  const double v = std::clamp((y - area_.y0) / cellMm_, 0.0, double(rows_));
  const int c = std::min(int(u), columns_ - 1), r = std::min(int(v), rows_ - 1);
  const double a = u - c, b = v - r;
  const size_t stride = size_t(columns_) + 1;
  const auto* p = &table_[r * stride + c];
  const auto* q = p + stride;
  const double w00 = sign * (1 - a) * (1 - b), w10 = sign * a * (1 - b), w01 = sign * (1 - a) * b,
               w11 = sign * a * b;
  for (size_t k = 0; k < kFigureLayers; ++k)
    sum[k] += w00 * p[0][k] + w10 * p[1][k] + w01 * q[0][k] + w11 * q[1][k];
}

FigureSums::Sum FigureSums::over(const Rect& r) const {
  Sum sum{};
  if (columns_ <= 0 || rows_ <= 0) return sum;
  corner(r.x1, r.y1, 1, sum);
  corner(r.x0, r.y1, -1, sum);
  corner(r.x1, r.y0, -1, sum);
  corner(r.x0, r.y0, 1, sum);
  return sum;
}

FigureSums::Sum FigureSums::over(const Polygon& p, double sliceMm) const {
  Sum sum{};
  const Rect box = bounds(p);
  const int slices = std::max(1, int(std::ceil(box.width() / sliceMm)));
  const double width = box.width() / slices;
  for (int i = 0; i < slices; ++i) {
    const double x = box.x0 + i * width;
    double low = 0, high = 0;
    if (!chordAt(p, x + width / 2, low, high)) continue;
    const Sum slice = over(Rect{x, low, x + width, high});
    for (size_t k = 0; k < kFigureLayers; ++k) sum[k] += slice[k];
  }
  return sum;
}

FigureReading readingOf(const FigureSums::Sum& sum, double areaMm2) {
  const auto of = [&](FigureLayer layer) { return sum[size_t(layer)]; };
  FigureReading r;
  const double wood = of(FigureLayer::wood);
  if (areaMm2 <= 0 || wood <= 0) return r;
  r.woodShare = wood / areaMm2;
  const double c = of(FigureLayer::grainCos), s = of(FigureLayer::grainSin);
  r.grainRad = 0.5 * std::atan2(s, c);
  r.grainSpread = std::clamp(1 - std::hypot(c, s) / wood, 0.0, 1.0);
  r.coherence = of(FigureLayer::coherence) / wood;
  const double xx = of(FigureLayer::ringXx), yy = of(FigureLayer::ringYy);
  r.ringsTurned = xx + yy > 0 ? std::clamp(xx / (xx + yy), 0.0, 1.0) : 0;
  r.lightness = of(FigureLayer::tone) / wood;
  r.lightnessSpread = deviation(of(FigureLayer::toneSquared) / wood, r.lightness);
  const double known = of(FigureLayer::colourKnown);
  r.colourShare = known / wood;
  if (known > 0) {
    r.warmth = of(FigureLayer::warmth) / known;
    r.warmthSpread = deviation(of(FigureLayer::warmthSquared) / known, r.warmth);
  }
  r.sapwoodShare = of(FigureLayer::sapwood) / wood;
  r.contrast = std::sqrt(std::max(0.0, of(FigureLayer::contrast) / wood));
  r.ripple = std::sqrt(std::max(0.0, of(FigureLayer::ripple) / wood));
  return r;
}

}  // namespace rackside
