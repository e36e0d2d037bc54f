// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/board_solid.h"

#include <algorithm>
#include <cmath>

#include "tests/support/noise.h"

namespace rackside::synthetic {
namespace {

constexpr double kStationMm = 6;
constexpr int kSideSteps = 6;  // levels of a side between face A and face B

// How far the edge strays outward from its straight line at x.
double stray(const EdgeSpec& e, uint32_t seed, double x) {
  const double hair = 0.25 * noise1(seed, x / 350);  // no saw runs quite straight
  if (e.kind == "rough") {
    return hair + e.roughMm * (0.7 * noise1(seed + 1, x / 45) + 0.3 * noise1(seed + 2, x / 14));
  }
  if (e.kind == "live") {
    return hair + e.roughMm * (7.0 * noise1(seed + 3, x / 330) + 2.2 * noise1(seed + 4, x / 95) +
                               0.5 * noise1(seed + 5, x / 22));
  }
  return hair;
}

double waneAt(const EdgeSpec& e, uint32_t seed, double share, double x) {
  if (e.waneMm == 0) return 0;
  const double in = std::clamp((share - e.waneFrom) / 0.08, 0.0, 1.0);
  const double out = std::clamp((e.waneTo - share) / 0.08, 0.0, 1.0);
  return e.waneMm * smooth01(static_cast<float>(std::min(in, out))) *
         (0.8 + 0.2 * noise1(seed + 6, x / 160) + 0.06 * noise1(seed + 7, x / 20));
}

struct Station {
  double x = 0;     // along this edge
  double y = 0;     // of the arris of face A
  double wane = 0;  // outward at face B
};

std::vector<Station> stations(const BoardShape& b, bool isFar) {
  const EdgeSpec& e = isFar ? b.farEdge : b.nearEdge;
  const uint32_t seed = b.seed * 101 + (isFar ? 31 : 7);
  const double x0 = std::max(0.0, isFar ? -b.leftSkewMm : b.leftSkewMm);
  const double x1 = b.lengthMm - std::max(0.0, isFar ? -b.rightSkewMm : b.rightSkewMm);
  const int n = static_cast<int>(std::ceil(b.lengthMm / kStationMm));
  std::vector<Station> out;
  for (int i = 0; i <= n; ++i) {
    const double share = static_cast<double>(i) / n;
    const double x = x0 + share * (x1 - x0);
    const double crook = 4 * b.crookMm * share * (1 - share);
    const double straight = isFar ? b.widthMm + b.taperMm * share : 0;
    const double outward = stray(e, seed, x);
    out.push_back({x, straight + crook + (isFar ? outward : -outward), waneAt(e, seed, share, x)});
  }
  return out;
}

void addQuad(Mesh& m, int a, int b, int c, int d) {
  m.triangles.push_back({a, b, c});
  m.triangles.push_back({a, c, d});
}

Polygon outlineOf(const std::vector<Station>& low, const std::vector<Station>& high, double wane) {
  Polygon p;
  for (const Station& s : low) p.push_back({s.x, s.y - wane * s.wane});
  for (auto it = high.rbegin(); it != high.rend(); ++it)
    p.push_back({it->x, it->y + wane * it->wane});
  return p;
}

Mesh faceMesh(const BoardShape& b, const std::vector<Station>& low,
              const std::vector<Station>& high, bool top) {
  Mesh m;
  for (size_t i = 0; i < low.size(); ++i) {
    const double wane = top ? 0 : 1;
    const double z = top ? b.thicknessMm : 0;
    const double yLow = low[i].y - wane * low[i].wane;
    const double yHigh = high[i].y + wane * high[i].wane;
    m.vertices.push_back({low[i].x, yLow, z + bowAt(b, low[i].x)});
    m.vertices.push_back({high[i].x, yHigh, z + bowAt(b, high[i].x)});
    m.uv.push_back({low[i].x, yLow});
    m.uv.push_back({high[i].x, yHigh});
    const int k = static_cast<int>(2 * i);
    if (i > 0) addQuad(m, k - 2, k, k + 1, k - 1);
  }
  return m;
}

Mesh sideMesh(const BoardShape& b, const std::vector<Station>& edge, double outward) {
  Mesh m;
  const int row = kSideSteps + 1;
  for (size_t i = 0; i < edge.size(); ++i) {
    for (int k = 0; k <= kSideSteps; ++k) {
      const double down = static_cast<double>(k) / kSideSteps;
      const double out = edge[i].wane * std::pow(down, 0.75);
      const double z = b.thicknessMm * (1 - down);
      m.vertices.push_back({edge[i].x, edge[i].y + outward * out, z + bowAt(b, edge[i].x)});
      m.uv.push_back({edge[i].x, z});
      const int at = static_cast<int>(i) * row + k;
      if (i > 0 && k > 0) addQuad(m, at - row - 1, at - 1, at, at - row);
    }
  }
  return m;
}

Mesh endMesh(const BoardShape& b, const Station& low, const Station& high) {
  Mesh m;
  for (int k = 0; k <= kSideSteps; ++k) {
    const double down = static_cast<double>(k) / kSideSteps;
    const double z = b.thicknessMm * (1 - down);
    const double yLow = low.y - low.wane * std::pow(down, 0.75);
    const double yHigh = high.y + high.wane * std::pow(down, 0.75);
    m.vertices.push_back({low.x, yLow, z + bowAt(b, low.x)});
    m.vertices.push_back({high.x, yHigh, z + bowAt(b, high.x)});
    m.uv.push_back({yLow, z});
    m.uv.push_back({yHigh, z});
    if (k > 0) addQuad(m, 2 * k - 2, 2 * k, 2 * k + 1, 2 * k - 1);
  }
  return m;
}

}  // namespace

double bowAt(const BoardShape& b, double x) {
  const double t = 2 * x / b.lengthMm - 1;
  return b.bowMm * t * t;
}

BoardSolid boardSolid(const BoardShape& b) {
  const std::vector<Station> low = stations(b, false);
  const std::vector<Station> high = stations(b, true);
  BoardSolid s;
  s.outlineA = outlineOf(low, high, 0);
  s.outlineB = outlineOf(low, high, 1);
  s.faceA = faceMesh(b, low, high, true);
  s.faceB = faceMesh(b, low, high, false);
  s.nearSide = sideMesh(b, low, -1);
  s.farSide = sideMesh(b, high, 1);
  s.leftEnd = endMesh(b, low.front(), high.front());
  s.rightEnd = endMesh(b, low.back(), high.back());
  s.nearIsBark = b.nearEdge.kind == "live" || b.nearEdge.waneMm != 0;
  s.farIsBark = b.farEdge.kind == "live" || b.farEdge.waneMm != 0;
  return s;
}

}  // namespace rackside::synthetic
