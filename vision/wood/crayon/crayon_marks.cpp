// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/crayon_marks.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

// A line that ends this near the end of the board was meant to run out.
constexpr double kRunOutMm = 120;

MarkKind kindOf(StrokeKind kind) {
  switch (kind) {
    case StrokeKind::ring:
      return MarkKind::avoid;
    case StrokeKind::cross:
      return MarkKind::holeToFill;
    case StrokeKind::line:
      return MarkKind::sapwood;
    case StrokeKind::tick:
      return MarkKind::favour;
  }
  return MarkKind::avoid;
}

// From the line to the edge it runs along, as one area of the board.
std::optional<Polygon> sideOf(const Stroke& stroke, const Polygon& outline) {
  std::vector<Point> line = stroke.points;
  if (line.front().x > line.back().x) std::reverse(line.begin(), line.end());
  const Rect box = bounds(outline);
  double toNear = 0, toFar = 0;
  for (const Point p : line) toNear += p.y - box.y0, toFar += box.y1 - p.y;
  if (line.front().x - box.x0 < kRunOutMm) line.insert(line.begin(), {box.x0 - 1, line.front().y});
  if (box.x1 - line.back().x < kRunOutMm) line.push_back({box.x1 + 1, line.back().y});
  const double beyond = toNear < toFar ? box.y0 - 1 : box.y1 + 1;
  Polygon area = line;
  area.push_back({line.back().x, beyond});
  area.push_back({line.front().x, beyond});
  if (signedArea(area) < 0) std::reverse(area.begin(), area.end());
  Polygons on = intersect({area}, {outline});
  const auto largest = std::max_element(on.begin(), on.end(), [](const auto& p, const auto& q) {
    return signedArea(p) < signedArea(q);
  });
  if (largest == on.end() || largest->size() < 3) return std::nullopt;
  return *largest;
}

}  // namespace

std::vector<Mark> crayonMarks(const std::vector<CrayonStroke>& strokes, const BoardFace& face,
                              const Board& board, Face side) {
  std::vector<Mark> marks;
  for (const CrayonStroke& s : strokes) {
    MarkShape shape = carried(s.shape, face.boardFromPicture);
    if (s.kind == StrokeKind::line) {
      const auto area = sideOf(std::get<Stroke>(shape), board.outline.polygon());
      if (!area) continue;
      shape = *area;
    }
    Mark m;
    m.id.text = newIdText("mk");
    m.kind = kindOf(s.kind);
    m.on(side) = shape;
    m.depthFrom = side;
    m.author = MarkAuthor::crayon;
    m.confidence = s.confidence;
    m.confirmed = false;
    if (validate(m)) marks.push_back(std::move(m));
  }
  return marks;
}

}  // namespace rackside
