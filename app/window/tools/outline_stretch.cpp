// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/tools/outline_stretch.h"

#include <algorithm>

#include "core/geometry/polygon.h"

namespace rackside {

namespace {

Point endOf(const Outline& outline, size_t side) {
  return outline.vertices[(side + 1) % outline.vertices.size()].at;
}

// Along the outline's direction.
double wayBetween(const Outline& outline, const OutlinePlace& from, const OutlinePlace& to) {
  if (from.side == to.side && from.along <= to.along) return norm(to.at - from.at);
  double way = norm(endOf(outline, from.side) - from.at);
  const size_t n = outline.vertices.size();
  for (size_t side = (from.side + 1) % n; side != to.side; side = (side + 1) % n)
    way += norm(endOf(outline, side) - outline.vertices[side].at);
  return way + norm(to.at - outline.vertices[to.side].at);
}

void append(std::vector<OutlineVertex>& vertices, const OutlineVertex& v) {
  if (!vertices.empty() && norm(vertices.back().at - v.at) < 1e-6) {
    vertices.back().state = v.state;
    return;
  }
  vertices.push_back(v);
}

}  // namespace

OutlinePlace nearestPlace(const Outline& outline, Point p) {
  OutlinePlace best;
  best.offMm = 1e300;
  const auto& v = outline.vertices;
  for (size_t i = 0; i < v.size(); ++i) {
    const Point d = endOf(outline, i) - v[i].at;
    const double square = dot(d, d);
    const double t = square > 0 ? std::clamp(dot(p - v[i].at, d) / square, 0.0, 1.0) : 0;
    const Point at = v[i].at + t * d;
    if (norm(p - at) < best.offMm) best = {i, t, at, norm(p - at)};
  }
  return best;
}

Result<Outline> withStretch(const Outline& outline, const OutlinePlace& from,
                            const OutlinePlace& to, std::vector<StretchPoint> line,
                            double endSigmaMm) {
  OutlinePlace a = from, b = to;
  if (wayBetween(outline, a, b) > wayBetween(outline, b, a)) {
    std::swap(a, b);
    std::reverse(line.begin(), line.end());
  }
  // What stays runs from b round to a; the new line closes it from a to b.
  const auto& v = outline.vertices;
  const size_t n = v.size();
  Outline out = outline;
  out.vertices.clear();
  append(out.vertices, {b.at, endSigmaMm, v[b.side].state});
  size_t side = b.side;
  const bool wholeRound = !(a.side == b.side && a.along >= b.along);
  if (wholeRound) {
    do {
      side = (side + 1) % n;
      append(out.vertices, v[side]);
    } while (side != a.side);
  }
  append(out.vertices, {a.at, endSigmaMm, EdgeState::drawn});
  for (const StretchPoint& p : line) append(out.vertices, {p.at, p.sigmaMm, EdgeState::drawn});
  if (out.vertices.size() > 1 && norm(out.vertices.back().at - out.vertices.front().at) < 1e-6)
    out.vertices.pop_back();
  const Polygon polygon = out.polygon();
  if (polygon.size() < 3 || !isSimple(polygon) || signedArea(polygon) <= 0)
    return Error{
        "The new edge would cross the outline. Draw it without crossing, from one place on "
        "the outline to another."};
  return out;
}

}  // namespace rackside
