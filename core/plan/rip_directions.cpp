// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/rip_directions.h"

#include "core/geometry/polygon.h"
#include "core/plan/tracks.h"

namespace rackside {
namespace {

// No two edges are nearer than 0.2°: 3.5 mm over a metre.
constexpr double kSameEdgeRad = 0.0035;
// To either side of the axis, ranges of a degree and a quarter, halved down to a twenty-sixth of
// one: 0.7 mm from side to side at the ends of a section of two metres.
constexpr int kRanges = 4, kHalvings = 5;

Interval chordAt(const Polygon& p, double x) {
  Interval chord{1e9, -1e9};
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    if ((a.x <= x) == (b.x <= x)) continue;
    const double y = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
    chord = {std::min(chord.lo, y), std::max(chord.hi, y)};
  }
  return chord;
}

// Of each edge of the whole board and of its halves.
std::vector<double> edgeAngles(const Outline& outline) {
  const Polygon p = outline.polygon();
  const Rect box = bounds(p);
  const auto at = [&](double share) { return box.x0 + share * box.width(); };
  std::vector<double> angles{0};
  if (box.width() <= 0) return angles;
  const auto offer = [&](double from, double to, double Interval::*edge) {
    const double rise = chordAt(p, at(to)).*edge - chordAt(p, at(from)).*edge;
    const double angle = std::atan2(rise, at(to) - at(from));
    const auto near = [&](double a) { return std::abs(a - angle) < kSameEdgeRad; };
    if (std::abs(angle) <= kSteepestRipRad && std::none_of(angles.begin(), angles.end(), near))
      angles.push_back(angle);
  };
  for (const auto& [from, to] : {std::pair{0.08, 0.92}, {0.08, 0.5}, {0.5, 0.92}}) {
    offer(from, to, &Interval::lo);
    offer(from, to, &Interval::hi);
  }
  return angles;
}

void halve(size_t range, int times, std::vector<RipDirection>& all) {
  if (times == 0) return;
  const RipDirection whole = all[range];
  const int low = static_cast<int>(all.size());
  all[range].halves = low;
  for (const double side : {-0.5, 0.5})
    all.push_back({whole.angleRad + side * whole.halfRad, whole.halfRad / 2});
  for (const int half : {low, low + 1}) halve(static_cast<size_t>(half), times - 1, all);
}

void addRange(RipDirection range, int halvings, RipDirections& directions) {
  directions.ranges.push_back(static_cast<int>(directions.all.size()));
  directions.all.push_back(range);
  halve(directions.all.size() - 1, halvings, directions.all);
}

}  // namespace

RipDirections ripDirections(const Outline& outline, const std::vector<double>& more) {
  std::vector<double> angles = edgeAngles(outline);
  for (const double angle : more)
    if (std::find(angles.begin(), angles.end(), angle) == angles.end()) angles.push_back(angle);
  RipDirections directions;
  directions.forPlans = static_cast<int>(angles.size());
  for (const double angle : angles) directions.all.push_back({angle});
  // The axis for itself: most boards are ripped along it, and some parts bear nothing else.
  addRange({0, kAngleSlackRad}, 0, directions);
  const double half = kSteepestRipRad / (2 * kRanges);
  for (int i = 0; i < kRanges; ++i)
    for (const double side : {-1, 1})
      addRange({side * (kAngleSlackRad + (2 * i + 1) * half), half * (1 + 1e-9)}, kHalvings,
               directions);
  for (const double angle : more)
    if (std::abs(angle) > kSteepestRipRad) addRange({angle, kAngleSlackRad}, 0, directions);
  return directions;
}

}  // namespace rackside
