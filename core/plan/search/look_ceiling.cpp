// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/look_ceiling.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace rackside {
namespace {

constexpr double kFirstAlongMm = 10, kFirstAcrossMm = 7.5;

// Along the board each step doubles the window.
double windowAlong(int step) {
  return step == 0 ? 0 : kFirstAlongMm * (1 << (step - 1));
}

// Across two steps do.
double windowAcross(int step) {
  if (step == 0) return 0;
  return kFirstAcrossMm * (1 << ((step - 1) / 2)) * (step % 2 == 1 ? 1 : std::numbers::sqrt2);
}

template <class Window>
int stepFor(const Window& windowOf, double shift) {
  int step = 0;
  while (windowOf(step) < shift - 1e-9) ++step;
  if (step >= LookCeilings::kMostSteps) throw std::logic_error("LookCeiling: window too wide");
  return step;
}

}  // namespace

LookCeiling::Axis::Axis(double firstMm, double cellMm, int cells, double shift) : cell(cellMm) {
  const int whole = static_cast<int>(std::floor(shift / cellMm + 1e-9));
  const double rest = std::max(0.0, shift - whole * cellMm);
  window = whole;
  before = whole + 1;
  first = firstMm - before * cellMm;
  firstPart = cellMm - rest;
  halves = 2 * (cells + before);
  perCell = 1 / cellMm;
  perFirst = 1 / firstPart;
  perSecond = 1 / std::max(1e-9, cell - firstPart);
}

LookCeiling::Axis::Spot LookCeiling::Axis::find(double at) const {
  const double from = at - first;
  if (from <= 0) return {0, 0, 0};
  const int index = static_cast<int>(from * perCell);
  if (2 * index >= halves) return {halves, halves, 0};
  const double inside = from - index * cell;
  if (inside < firstPart) return {2 * index, 2 * index + 1, inside * perFirst};
  return {2 * index + 1, 2 * index + 2, std::min(1.0, (inside - firstPart) * perSecond)};
}

LookCeiling::LookCeiling(const ValueMap& map, double shiftX, double shiftY)
    : x_(map.area.x0, map.cellMm, map.columns, shiftX),
      y_(map.area.y0, map.cellMm, map.rows, shiftY) {
  const auto worthAt = [&](int column, int row) {
    const bool known = column >= 0 && column < map.columns && row >= 0 && row < map.rows;
    return known ? map.worth[static_cast<size_t>(row) * map.columns + column] : 0.0F;
  };
  // Along x first, then along y.
  const int rows = y_.halves / 2 + y_.window + 2;
  std::vector<float> alongX(static_cast<size_t>(rows) * x_.halves);
  for (int r = 0; r < rows; ++r)
    for (int h = 0; h < x_.halves; ++h) {
      const int column = h / 2 - x_.before;
      float best = worthAt(column, r - y_.before);
      for (int k = 1; k <= x_.window + h % 2; ++k)
        best = std::max(best, worthAt(column + k, r - y_.before));
      alongX[static_cast<size_t>(r) * x_.halves + h] = best;
    }
  const size_t stride = static_cast<size_t>(x_.halves) + 1;
  sums_.assign(stride * (y_.halves + 1), 0);
  for (int v = 0; v < y_.halves; ++v) {
    double row = 0;
    for (int h = 0; h < x_.halves; ++h) {
      float best = -1e9F;
      for (int k = 0; k <= y_.window + v % 2; ++k)
        best = std::max(best, alongX[static_cast<size_t>(v / 2 + k) * x_.halves + h]);
      row += best * x_.width(h) * y_.width(v);
      sums_[(v + 1) * stride + h + 1] = static_cast<float>(sums_[v * stride + h + 1] + row);
    }
  }
}

double LookCeiling::sumTo(const Axis::Spot& x, const Axis::Spot& y) const {
  const size_t stride = static_cast<size_t>(x_.halves) + 1;
  const float* low = &sums_[y.half * stride];
  const float* high = &sums_[y.next * stride];
  const double a = low[x.half] + x.share * (low[x.next] - low[x.half]);
  const double b = high[x.half] + x.share * (high[x.next] - high[x.half]);
  return a + y.share * (b - a);
}

double LookCeiling::mean(const Rect& r) const {
  const double whole = r.width() * r.height();
  if (!(whole > 0)) return 0;
  const Axis::Spot x0 = x_.find(r.x0), x1 = x_.find(r.x1);
  const Axis::Spot y0 = y_.find(r.y0), y1 = y_.find(r.y1);
  return (sumTo(x1, y1) - sumTo(x0, y1) - sumTo(x1, y0) + sumTo(x0, y0)) / whole;
}

const LookCeiling& LookCeilings::covering(double shiftX, double shiftY) {
  return at(stepFor(windowAlong, shiftX), stepFor(windowAcross, shiftY));
}

const LookCeiling& LookCeilings::at(int stepX, int stepY) {
  auto& made = made_[stepX][stepY];
  if (!made) made = std::make_unique<LookCeiling>(*map_, windowAlong(stepX), windowAcross(stepY));
  return *made;
}

double LookCeilings::greatestWorth() const {
  double best = 0;
  for (const float w : map_->worth) best = std::max(best, static_cast<double>(w));
  return best;
}

}  // namespace rackside
