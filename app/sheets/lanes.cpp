// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/lanes.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace rackside::sheets {
namespace {

// A label may stray this many of its own widths from where it wants to be.
constexpr double kFarthest = 1.2;

// The free start nearest to `wanted` in a lane, or a negative number.
double nearestFree(const std::vector<LaneLabel>& labels, int lane, const LaneLabel& label,
                   double left, double right, double gap) {
  const double wanted =
      std::clamp(label.wantedX - label.width / 2, left, std::max(left, right - label.width));
  std::vector<double> starts{wanted};
  for (const LaneLabel& l : labels)
    if (l.lane == lane) {
      starts.push_back(l.x + l.width + gap);
      starts.push_back(l.x - gap - label.width);
    }
  double best = -1, bestAway = kFarthest * label.width;
  for (const double x : starts) {
    if (x < left - 1e-9 || x + label.width > right + 1e-9) continue;
    const bool clear = std::all_of(labels.begin(), labels.end(), [&](const LaneLabel& l) {
      return l.lane != lane || x >= l.x + l.width + gap - 1e-9 ||
             x + label.width + gap <= l.x + 1e-9;
    });
    const double away = std::abs(x - wanted);
    if (clear && away <= bestAway) best = x, bestAway = away - 1e-9;
  }
  return best;
}

}  // namespace

void placeInLanes(std::vector<LaneLabel>& labels, int lanes, double left, double right,
                  double gap) {
  std::vector<size_t> order(labels.size());
  std::iota(order.begin(), order.end(), size_t(0));
  std::stable_sort(order.begin(), order.end(),
                   [&](size_t a, size_t b) { return labels[a].wantedX < labels[b].wantedX; });
  for (const size_t i : order) {
    for (int lane = 0; lane < lanes && labels[i].lane < 0; ++lane) {
      const double x = nearestFree(labels, lane, labels[i], left, right, gap);
      if (x < 0) continue;
      labels[i].x = x;
      labels[i].lane = lane;
    }
  }
}

}  // namespace rackside::sheets
