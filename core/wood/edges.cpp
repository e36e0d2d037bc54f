// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/edges.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/wood/measure.h"

namespace rackside {
namespace {

// The direction of a rough edge is taken over this length.
constexpr double kDirectionMm = 20;
constexpr double kSteepestStrip = 0.2;  // rise per run; a board's edges never part further

using Chain = std::vector<Point>;

bool startsSteep(const Chain& chain) {
  const Point start = chain.front();
  for (const Point p : chain)
    if (norm(p - start) >= kDirectionMm) return std::abs(p.y - start.y) > std::abs(p.x - start.x);
  return false;
}

// The corner lies up to kDirectionMm past the last steep direction, so that much goes too.
void dropSteepStart(Chain& chain) {
  if (!startsSteep(chain)) return;
  while (chain.size() > 2 && startsSteep(chain)) chain.erase(chain.begin());
  const Point lastOfCut = chain.front();
  while (chain.size() > 2 && norm(chain.front() - lastOfCut) < kDirectionMm)
    chain.erase(chain.begin());
}

Chain withoutEndCuts(Chain chain) {
  dropSteepStart(chain);
  std::reverse(chain.begin(), chain.end());
  dropSteepStart(chain);
  std::reverse(chain.begin(), chain.end());
  return chain;
}

size_t extreme(const Polygon& p, bool rightmost, bool highest) {
  size_t best = 0;
  for (size_t i = 1; i < p.size(); ++i) {
    const double dx = p[i].x - p[best].x, dy = p[i].y - p[best].y;
    const bool further = rightmost ? dx > 0 : dx < 0;
    if (further || (dx == 0 && (highest ? dy > 0 : dy < 0))) best = i;
  }
  return best;
}

Chain walk(const Polygon& p, size_t from, size_t to) {
  Chain chain;
  for (size_t i = from;; i = (i + 1) % p.size()) {
    chain.push_back(p[i]);
    if (i == to) return chain;
  }
}

double heightAt(const Chain& chain, double x) {
  for (size_t i = 0; i + 1 < chain.size(); ++i) {
    const Point a = chain[i], b = chain[i + 1];
    if (a.x < b.x && x >= a.x && x <= b.x) return a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y);
  }
  return x <= chain.front().x ? chain.front().y : chain.back().y;
}

Chain between(const Chain& chain, double x0, double x1) {
  Chain part{{x0, heightAt(chain, x0)}};
  for (const Point p : chain)
    if (p.x > x0 && p.x < x1) part.push_back(p);
  part.push_back({x1, heightAt(chain, x1)});
  return part;
}

struct Bounds {
  double low;
  double high;
};

// The lines y = slope·x + c that stay above the near and below the far edge.
Bounds roomAt(const Chain& near, const Chain& far, double slope) {
  Bounds room{-std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  for (const Point p : near) room.low = std::max(room.low, p.y - slope * p.x);
  for (const Point p : far) room.high = std::min(room.high, p.y - slope * p.x);
  return room;
}

double widthAtSlope(const Chain& near, const Chain& far, double slope) {
  const Bounds room = roomAt(near, far, slope);
  return (room.high - room.low) / std::hypot(1.0, slope);
}

// The room is a concave function of the slope (a least of lines less a greatest of lines), so a
// search by thirds closes in on its top.
double bestSlope(const Chain& near, const Chain& far) {
  double low = -kSteepestStrip, high = kSteepestStrip;
  while (high - low > 1e-9) {
    const double a = low + (high - low) / 3, b = high - (high - low) / 3;
    if (widthAtSlope(near, far, a) < widthAtSlope(near, far, b))
      low = a;
    else
      high = b;
  }
  return (low + high) / 2;
}

double greatestGap(const Chain& chain) {
  const Point a = chain.front(), along = chain.back() - chain.front();
  const double length = norm(along);
  double gap = 0;
  if (length > 0)
    for (const Point p : chain) gap = std::max(gap, std::abs(cross(along, p - a)) / length);
  return gap;
}

}  // namespace

LongEdges longEdges(const Outline& outline) {
  const Polygon p = outline.polygon();
  if (p.size() < 3) return {};
  LongEdges edges;
  edges.near = withoutEndCuts(walk(p, extreme(p, false, false), extreme(p, true, false)));
  edges.far = walk(p, extreme(p, true, true), extreme(p, false, true));
  std::reverse(edges.far.begin(), edges.far.end());
  edges.far = withoutEndCuts(std::move(edges.far));
  return edges;
}

StraightStrip widestStraightStrip(const Outline& outline) {
  const LongEdges edges = longEdges(outline);
  if (edges.near.empty() || edges.far.empty()) return {};
  const double x0 = std::max(edges.near.front().x, edges.far.front().x);
  const double x1 = std::min(edges.near.back().x, edges.far.back().x);
  if (x1 <= x0) return {};
  const Chain near = between(edges.near, x0, x1), far = between(edges.far, x0, x1);
  const double slope = bestSlope(near, far);
  const Bounds room = roomAt(near, far, slope);
  if (room.high <= room.low) return {};
  StraightStrip strip;
  strip.widthMm = widthAtSlope(near, far, slope);
  strip.angleRad = std::atan(slope);
  strip.corners = {{x0, slope * x0 + room.low},
                   {x1, slope * x1 + room.low},
                   {x1, slope * x1 + room.high},
                   {x0, slope * x0 + room.high}};
  return strip;
}

double crookMm(const Outline& outline) {
  const LongEdges edges = longEdges(outline);
  if (edges.near.empty() || edges.far.empty()) return 0;
  return std::max(greatestGap(edges.near), greatestGap(edges.far));
}

double taperMmPerM(const Outline& outline) {
  const LongEdges edges = longEdges(outline);
  if (edges.near.empty() || edges.far.empty()) return 0;
  const double x0 = std::max(edges.near.front().x, edges.far.front().x);
  const double x1 = std::min(edges.near.back().x, edges.far.back().x);
  if (x1 <= x0) return 0;
  constexpr int kSamples = 101;  // the least-squares line through that many widths
  const double middle = (x0 + x1) / 2;
  double sumXX = 0, sumXW = 0;
  for (int i = 0; i < kSamples; ++i) {
    const double x = x0 + (x1 - x0) * i / (kSamples - 1);
    sumXX += (x - middle) * (x - middle);
    sumXW += (x - middle) * (heightAt(edges.far, x) - heightAt(edges.near, x));
  }
  return 1000 * sumXW / sumXX;
}

}  // namespace rackside
