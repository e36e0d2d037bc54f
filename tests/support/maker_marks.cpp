// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/maker_marks.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"
#include "tests/support/board_frame.h"
#include "tests/support/noise.h"
#include "tests/support/scene_truth.h"
#include "tests/support/wood_defects.h"

namespace rackside::synthetic {
namespace {

constexpr double kHandMm = 0.8;  // how far a hand strays
constexpr double kRoundMm = 2;   // how generously it draws round a defect
constexpr double kSapStepMm = 120;

MarkShape asDrawn(const MarkShape& shape, Draw& hand) {
  if (const auto* e = std::get_if<Ellipse>(&shape)) {
    Ellipse drawn = *e;
    drawn.centre = drawn.centre + Point{kHandMm * hand.normal(), kHandMm * hand.normal()};
    drawn.semiX = std::round(drawn.semiX + kRoundMm);
    drawn.semiY = std::round(drawn.semiY + kRoundMm);
    return drawn;
  }
  if (const auto* s = std::get_if<Stroke>(&shape)) {
    Stroke drawn{{}, std::max(2.0, std::round(s->widthMm + 1))};
    const size_t every = std::max<size_t>(1, s->points.size() / 4);
    for (size_t i = 0; i < s->points.size(); i += every) drawn.points.push_back(s->points[i]);
    if (drawn.points.back() != s->points.back()) drawn.points.push_back(s->points.back());
    return drawn;
  }
  return shape;
}

double tenth(double mm) {
  return std::round(10 * mm) / 10;
}

struct Rounded {
  MarkShape operator()(Polygon p) const {
    for (Point& q : p) q = {tenth(q.x), tenth(q.y)};
    return p;
  }
  MarkShape operator()(Stroke s) const {
    for (Point& q : s.points) q = {tenth(q.x), tenth(q.y)};
    return s;
  }
  MarkShape operator()(Ellipse e) const {
    e.centre = {tenth(e.centre.x), tenth(e.centre.y)};
    e.angleRad = std::round(1000 * e.angleRad) / 1000;
    return e;
  }
};
constexpr Rounded rounded;

// The band of sapwood along one side, from the boundary out to past the edge; empty when there is
// none on that side.
Polygon sapBand(const std::vector<SapwoodAt>& line, const Rect& box, bool low) {
  Polygon inner;
  for (const SapwoodAt& at : line) {
    const bool sapHere = low ? at.lowIsSap : (at.crossings.size() % 2 == 0) == at.lowIsSap;
    if (!sapHere) continue;
    const double whole = low ? box.y1 : box.y0;  // no crossing: sapwood right across
    const double y =
        at.crossings.empty() ? whole : (low ? at.crossings.front() : at.crossings.back());
    inner.push_back({at.x, y});
  }
  if (inner.size() < 2) return {};
  const double outer = low ? box.y0 : box.y1;
  Polygon band = inner;
  band.push_back({inner.back().x, outer});
  band.push_back({inner.front().x, outer});
  if (signedArea(band) < 0) std::reverse(band.begin(), band.end());
  return band;
}

std::vector<Mark> sapMarks(const PlacedBoard& board, const Pose& boardFromModel) {
  const WoodLog log(board.wood, board.shape.thicknessMm);
  const BoardSolid solid = boardSolid(board.shape);
  std::vector<Mark> marks;
  for (const bool low : {true, false}) {
    Mark m;
    m.kind = MarkKind::sapwood;
    for (const Face face : {Face::A, Face::B}) {
      const Rect box = bounds(face == Face::A ? solid.outlineA : solid.outlineB);
      const double z = face == Face::A ? board.shape.thicknessMm : 0;
      const Polygon band = sapBand(sapwoodLine(log, z, box, kSapStepMm), box, low);
      if (!band.empty()) m.on(face) = rackside::apply(boardFromModel, band);
    }
    m.through = m.onA && m.onB;
    if (m.onA || m.onB) marks.push_back(m);
  }
  return marks;
}

}  // namespace

std::vector<Mark> makerMarks(const PlacedBoard& board, const std::string& idStem,
                             const FacesLookedAt& looked) {
  Draw hand(board.wood.seed);
  std::vector<Mark> all = marksInBoardFrame(board);
  for (Mark& m : all) {
    if (m.onA) m.onA = asDrawn(*m.onA, hand);
    if (m.onB) m.onB = asDrawn(*m.onB, hand);
    if (m.depthMm) m.depthMm = std::round(*m.depthMm);
  }
  const Pose boardFromModel = boardFrameOf(boardSolid(board.shape).outlineA);
  for (const Mark& m : sapMarks(board, boardFromModel)) all.push_back(m);
  std::vector<Mark> marks;
  for (Mark m : all) {
    if (!looked.a) m.onA.reset();
    if (!looked.b) m.onB.reset();
    if (!m.onA && !m.onB) continue;
    if (m.onA) m.onA = std::visit(rounded, *m.onA);
    if (m.onB) m.onB = std::visit(rounded, *m.onB);
    m.id.text = "mark-" + idStem + "-" + std::to_string(marks.size() + 1);
    marks.push_back(m);
  }
  return marks;
}

}  // namespace rackside::synthetic
