// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/simplify_outline.h"

namespace rackside {
namespace {

double offChord(Point p, Point a, Point b) {
  const Point d = b - a;
  const double l = norm(d);
  return l > 0 ? std::abs(cross(d, p - a)) / l : norm(p - a);
}

void keepBetween(const std::vector<EdgePoint>& side, size_t a, size_t b, double tolerance,
                 double longest, std::vector<bool>& keep) {
  if (b <= a + 1) return;
  size_t worst = (a + b) / 2;
  double off = 0;
  bool change = false;
  for (size_t i = a + 1; i < b && !change; ++i) {
    const double d = offChord(side[i].at, side[a].at, side[b].at);
    change = side[i].state != side[i - 1].state;
    if (change || d > off) worst = i, off = d;
  }
  if (!change && off <= tolerance && norm(side[b].at - side[a].at) <= longest) return;
  keep[worst] = true;
  keepBetween(side, a, worst, tolerance, longest, keep);
  keepBetween(side, worst, b, tolerance, longest, keep);
}

}  // namespace

std::vector<EdgePoint> simplified(const std::vector<EdgePoint>& side, double toleranceMm,
                                  double longestMm) {
  if (side.size() < 3) return side;
  std::vector<bool> keep(side.size(), false);
  keep.front() = keep.back() = true;
  keepBetween(side, 0, side.size() - 1, toleranceMm, longestMm, keep);
  std::vector<EdgePoint> out;
  for (size_t i = 0; i < side.size(); ++i)
    if (keep[i]) out.push_back(side[i]);
  return out;
}

}  // namespace rackside
