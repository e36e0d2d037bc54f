// SPDX-License-Identifier: GPL-3.0-or-later
// Rules about the wood: by distances from what was drawn, never from grown or gridded shapes.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "core/plan/checker_geometry.h"
#include "core/plan/checker_kinds.h"
#include "core/plan/checker_rules.h"
#include "core/wood/clear_area.h"

namespace rackside::checking {
namespace {

// The direction of a line's end is taken over this length, as for the clearances.
constexpr double kTipMm = 10;

std::string tenths(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f", mm);
  return text;
}

double marginOf(const OutlineVertex& a, const OutlineVertex& b) {
  const double u95 = 1.96 * std::max(a.sigmaMm, b.sigmaMm);
  return a.state == EdgeState::unsure ? std::max(2 * u95, 3.0) : u95;
}

bool spoilsBody(const Mark& m) {
  return ruleOf(m.kind).spoilsBody || m.live;
}
bool right(const Board& board, const Mark& m) {
  return m.through || (m.depthMm && board.thicknessMm > 0 && *m.depthMm >= board.thicknessMm);
}

std::vector<Point> withLongerEnds(std::vector<Point> line, double byMm) {
  for (int end = 0; end < 2; ++end) {
    const Point tip = line.back();
    Point inner = tip;
    for (auto p = line.rbegin(); p != line.rend(); ++p) {
      inner = *p;
      if (norm(inner - tip) >= kTipMm) break;
    }
    if (const double d = norm(tip - inner); d > 0) line.push_back(tip + (byMm / d) * (tip - inner));
    std::reverse(line.begin(), line.end());
  }
  return line;
}

// How much nearer than it may a convex shape lies to one drawn mark; ≤ 0 is legal.
double tooNear(const Polygon& convex, const MarkShape& shape, MarkKind kind, double clearance,
               double extra) {
  const bool along = ruleOf(kind).runsOn;
  const double across = (along ? std::min(3.0, clearance) : clearance) + extra;
  if (const Stroke* stroke = std::get_if<Stroke>(&shape)) {
    const double reach = across + std::max(stroke->widthMm, 0.0) / 2;
    const auto line = along && stroke->points.size() >= 2
                          ? withLongerEnds(stroke->points, clearance + extra)
                          : stroke->points;
    return reach - distanceOfLine(line, convex);
  }
  const Polygon zone = along ? sweptAlongX(convex, clearance + extra) : convex;
  double nearest = 1e300;
  for (const Polygon& p : polygonsOf(shape)) nearest = std::min(nearest, distanceOf(p, zone));
  return across - nearest;
}

double tooNearOnFace(const Board& board, const Mark& mark, Face face, const Polygon& convex,
                     const Shop& shop) {
  double worst = -1e300;
  const double clearance = shop.clearance(mark.kind);
  if (mark.on(face)) worst = tooNear(convex, *mark.on(face), mark.kind, clearance, 0);
  const auto& beyond = mark.on(otherFace(face));
  if (beyond && (right(board, mark) || spoilsBody(mark)))
    worst = std::max(worst, tooNear(convex, *beyond, mark.kind, clearance,
                                    board.faceB ? board.faceB->u95Mm : 0));
  return worst;
}

bool gone(const Board& board, const Mark& m, Face face, double leastTakeOff) {
  return m.depthMm && m.depthFrom == face && *m.depthMm <= leastTakeOff + 1e-6 &&
         !right(board, m) && !spoilsBody(m);
}

double leastTakeOff(const Board& board, const Blank& blank, const Shop& shop) {
  const Box box = boxOf(board.outline.polygon());
  const double l = blank.roughLengthMm / (box.x1 - box.x0),
               w = blank.roughWidthMm / (box.y1 - box.y0);
  const double hills = board.bowMm * l * l + board.cupMm * w * w + board.twistMm * l * w / 2;
  const double dry = board.thicknessMm * driedShares(board, shop).thickness;
  return (dry - blank.finishedThicknessMm - hills) / 2;
}

const FaceAllows& allowed(const Part& part, const Piece& piece, Face face) {
  if (part.showing == Showing::none) return part.back;
  if (part.showing == Showing::bothFaces || piece.showFace == face) return part.show;
  return part.back;
}

void clearOnFace(const Scene& s, Face face, const Report& report) {
  for (const Blank& blank : s.plan.blanks) {
    const Board& board = s.boardOf(blank);
    const Polygon span = finishedSpan(s, blank);
    for (const Mark& mark : board.marks) {
      const auto& pieces = s.piecesOf.at(blank.id);
      const bool allMayHoldIt = std::all_of(pieces.begin(), pieces.end(), [&](const Piece* p) {
        return holds(allowed(s.partOf(*p), *p, face), mark);
      });
      if (!counts(mark) || allMayHoldIt) continue;
      if (gone(board, mark, face, leastTakeOff(board, blank, s.request.shop))) continue;
      if (tooNearOnFace(board, mark, face, span, s.request.shop) > kCurveMm)
        report(nameOf(s, blank) + " lies over a " + std::string(name(mark.kind)) + " on face " +
               std::string(name(face)));
    }
  }
}

}  // namespace

void ruleInside(const Scene& s, const Report& report) {
  for (const Blank& blank : s.plan.blanks) {
    const auto& v = s.boardOf(blank).outline.vertices;
    const Polygon rough = blank.roughOutline();
    const bool offBoard =
        !isInside(s.boardOf(blank).outline.polygon(), 0.5 * (rough[0] + rough[2]));
    double over = 0;
    for (size_t i = 0; i < v.size(); ++i) {
      const OutlineVertex& next = v[(i + 1) % v.size()];
      over = std::max(over, marginOf(v[i], next) - distanceOfLine({v[i].at, next.at}, rough));
    }
    if (offBoard)
      report(nameOf(s, blank) + " does not lie on the board");
    else if (over > kSameMm)
      report(nameOf(s, blank) + " reaches over the sure edge of the board by " + tenths(over) +
             " mm");
  }
}

void ruleEnds(const Scene& s, const Report& report) {
  for (const Blank& blank : s.plan.blanks) {
    const Board& board = s.boardOf(blank);
    const Box whole = boxOf(board.outline.polygon()), b = boxOf(blank.roughOutline());
    const double rough = s.request.shop.endTrimMm;
    const double sawn = std::min(rough, s.request.shop.crosscutKerfMm);
    if (b.x0 < whole.x0 + (board.leftEndSawn ? sawn : rough) - kSameMm ||
        b.x1 > whole.x1 - (board.rightEndSawn ? sawn : rough) + kSameMm)
      report(nameOf(s, blank) + " reaches into the rough end of the board");
  }
}

void ruleClearFaceA(const Scene& s, const Report& report) {
  clearOnFace(s, Face::A, report);
}
void ruleClearFaceB(const Scene& s, const Report& report) {
  clearOnFace(s, Face::B, report);
}

void ruleUnseenFace(const Scene& s, const Report& report) {
  const auto seen = [](const Board& b, Face f) {
    if (b.pictures.empty() && f == Face::A) return true;
    for (const Picture& p : b.pictures)
      if (p.face == f) return true;
    for (const Mark& m : b.marks)
      if (m.confirmed && m.on(f)) return true;
    return false;
  };
  for (const Piece& piece : s.plan.pieces) {
    const Part& part = s.partOf(piece);
    if (part.showing == Showing::none) continue;
    for (const Face face : {Face::A, Face::B})
      if ((part.showing == Showing::bothFaces || face == piece.showFace) &&
          !seen(*s.boards.at(piece.board), face))
        report(nameOf(s, piece) + " shows face " + std::string(name(face)) +
               ", which was never photographed");
  }
}

void ruleMetal(const Scene& s, const Report& report) {
  for (const Cut& cut : s.plan.cuts) {
    const Board& board = *s.boards.at(cut.board);
    const Point d = cut.line.to - cut.line.from;
    const double length = norm(d);
    if (cut.made || !(length > 0)) continue;
    const Point right = (cut.kerfMm / length) * Point{d.y, -d.x};
    const Polygon band{cut.line.from + right, cut.line.to + right, cut.line.to, cut.line.from};
    for (const Mark& mark : board.marks)
      if (ruleOf(mark.kind).stopsTheSaw && counts(mark) &&
          tooNearOnFace(board, mark, Face::A, band, s.request.shop) > kCurveMm)
        report(nameOf(s, cut) + " would meet metal");
  }
}

void ruleBoardUse(const Scene& s, const Report& report) {
  for (const Cut& cut : s.plan.cuts) {
    const Board& board = *s.boards.at(cut.board);
    if (cut.made) continue;
    if (board.cutUp) report(nameOf(s, cut) + " is in a board that has been cut up");
    if (board.isSpokenFor()) report(nameOf(s, cut) + " is in a board that is " + stateWords(board));
    for (const BoardId& id : s.request.forbidden)
      if (id == cut.board) report(nameOf(s, cut) + " is in a board that may not be touched");
  }
}

}  // namespace rackside::checking
