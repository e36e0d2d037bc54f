// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/clip_mark.h"

#include <algorithm>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

constexpr double kLeastAreaMm2 = 0.5;
constexpr double kLeastLengthMm = 0.1;

bool lies(const Polygon& shape, const Polygon& piece) {
  return std::all_of(shape.begin(), shape.end(), [&](Point q) { return contains(piece, q); });
}

// Where along a→b the borders of the piece are crossed: shares of the way, ascending, ends added.
std::vector<double> crossings(Point a, Point b, const Polygon& piece) {
  std::vector<double> at{0, 1};
  const Point d = b - a;
  for (size_t i = 0; i < piece.size(); ++i) {
    const Point p = piece[i], e = piece[(i + 1) % piece.size()] - p;
    const double turn = cross(d, e);
    if (turn == 0) continue;
    const double t = cross(p - a, e) / turn, s = cross(p - a, d) / turn;
    if (t > 0 && t < 1 && s >= 0 && s <= 1) at.push_back(t);
  }
  std::sort(at.begin(), at.end());
  return at;
}

std::vector<MarkShape> clipped(const Stroke& stroke, const Polygon& piece) {
  std::vector<std::vector<Point>> runs;
  bool open = false;
  for (size_t i = 0; i + 1 < stroke.points.size(); ++i) {
    const Point a = stroke.points[i], b = stroke.points[i + 1];
    const std::vector<double> at = crossings(a, b, piece);
    for (size_t k = 0; k + 1 < at.size(); ++k) {
      const Point from = a + at[k] * (b - a), to = a + at[k + 1] * (b - a);
      if (!contains(piece, 0.5 * (from + to))) {
        open = false;
        continue;
      }
      if (!open) runs.push_back({from});
      runs.back().push_back(to);
      open = true;
    }
  }
  std::vector<MarkShape> shapes;
  for (const auto& run : runs) {
    double length = 0;
    for (size_t i = 0; i + 1 < run.size(); ++i) length += norm(run[i + 1] - run[i]);
    if (length > kLeastLengthMm) shapes.emplace_back(Stroke{run, stroke.widthMm});
  }
  return shapes;
}

std::vector<MarkShape> clipped(const Polygons& drawn, const Polygon& piece) {
  std::vector<MarkShape> shapes;
  for (const Polygon& p : intersect(drawn, {piece}))
    if (signedArea(p) > kLeastAreaMm2) shapes.emplace_back(p);
  return shapes;
}

std::vector<MarkShape> clipped(const MarkShape& shape, const Polygon& piece) {
  if (const Stroke* stroke = std::get_if<Stroke>(&shape)) return clipped(*stroke, piece);
  const Polygons drawn = polygonsOf(shape);
  const bool whole =
      std::all_of(drawn.begin(), drawn.end(), [&](const Polygon& p) { return lies(p, piece); });
  if (whole) return {shape};
  return clipped(drawn, piece);
}

MarkShape moved(MarkShape shape, Point corner) {
  if (Ellipse* e = std::get_if<Ellipse>(&shape)) e->centre = e->centre - corner;
  if (Polygon* p = std::get_if<Polygon>(&shape))
    for (Point& q : *p) q = q - corner;
  if (Stroke* s = std::get_if<Stroke>(&shape))
    for (Point& q : s->points) q = q - corner;
  return shape;
}

Mark partOf(const Mark& mark) {
  Mark part = mark;
  part.id.text = newIdText("mk");
  part.onA.reset();
  part.onB.reset();
  return part;
}

}  // namespace

std::vector<Mark> markCutTo(const Mark& mark, const Polygon& piece, Point corner) {
  std::vector<MarkShape> onA, onB;
  if (mark.onA) onA = clipped(*mark.onA, piece);
  if (mark.onB) onB = clipped(*mark.onB, piece);
  std::vector<Mark> parts;
  if (onA.size() == 1 && onB.size() == 1) {
    parts.push_back(partOf(mark));
    parts[0].onA = moved(onA[0], corner);
    parts[0].onB = moved(onB[0], corner);
    return parts;
  }
  for (const auto& [face, shapes] : {std::pair(Face::A, &onA), std::pair(Face::B, &onB)})
    for (const MarkShape& shape : *shapes) {
      parts.push_back(partOf(mark));
      parts.back().on(face) = moved(shape, corner);
    }
  return parts;
}

}  // namespace rackside
