// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/offcut.h"

#include <algorithm>
#include <cmath>

#include "core/wood/clip_mark.h"
#include "core/wood/measure.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

constexpr double kOnEdgeMm = 0.02;    // ten steps of the clipper's grid
constexpr double kHairMm = 0.05;      // from a sawn corner to where an old edge's ± begins
constexpr double kSawnEndMm = 0.5;    // an end further in than this was sawn
constexpr double kWidthStepMm = 100;  // as Board::widthsMm says

double distanceTo(const Segment& s, Point q) {
  const Point d = s.to - s.from;
  const double length2 = dot(d, d);
  const double t = length2 > 0 ? std::clamp(dot(q - s.from, d) / length2, 0.0, 1.0) : 0;
  return norm(q - (s.from + t * d));
}

// An edge of the piece, and what is known of it.
struct PieceEdge {
  Segment line;
  bool old = false;  // an edge of the board, not sawn
  double sigmaMm = kSawnSigmaMm;
  EdgeState state = EdgeState::sure;
};

PieceEdge edgeOf(const Outline& parent, const Segment& line) {
  const auto& v = parent.vertices;
  for (size_t i = 0; i < v.size(); ++i) {
    const OutlineVertex& next = v[(i + 1) % v.size()];
    const Segment edge{v[i].at, next.at};
    if (distanceTo(edge, line.from) < kOnEdgeMm && distanceTo(edge, line.to) < kOnEdgeMm)
      return {line, true, std::max(v[i].sigmaMm, next.sigmaMm), v[i].state};
  }
  return {line};
}

// A vertex's ± spreads to both of its edges, so that an old edge beside a sawn one ends a hair
// before the corner.
void addEdge(const PieceEdge& before, const PieceEdge& edge, const PieceEdge& after,
             std::vector<OutlineVertex>& out) {
  const double length = edge.line.length();
  const Point hair = length > 0 ? (kHairMm / length) * (edge.line.to - edge.line.from) : Point{};
  if (!edge.old || length < 4 * kHairMm) {
    out.push_back({edge.line.from, edge.old ? edge.sigmaMm : kSawnSigmaMm, edge.state});
    return;
  }
  out.push_back({edge.line.from, before.old ? std::max(before.sigmaMm, edge.sigmaMm) : kSawnSigmaMm,
                 edge.state});
  if (!before.old) out.push_back({edge.line.from + hair, edge.sigmaMm, edge.state});
  if (!after.old) out.push_back({edge.line.to - hair, edge.sigmaMm, edge.state});
}

// d(u + a, v + b) of a cubic in the monomials of PlaneMode.
std::array<double, 10> moved(const std::array<double, 10>& c, double a, double b) {
  std::array<double, 10> r{};
  r[0] = c[0] + c[1] * a + c[2] * b + c[3] * a * a + c[4] * a * b + c[5] * b * b +
         c[6] * a * a * a + c[7] * a * a * b + c[8] * a * b * b + c[9] * b * b * b;
  r[1] = c[1] + 2 * c[3] * a + c[4] * b + 3 * c[6] * a * a + 2 * c[7] * a * b + c[8] * b * b;
  r[2] = c[2] + c[4] * a + 2 * c[5] * b + c[7] * a * a + 2 * c[8] * a * b + 3 * c[9] * b * b;
  r[3] = c[3] + 3 * c[6] * a + c[7] * b;
  r[4] = c[4] + 2 * c[7] * a + 2 * c[8] * b;
  r[5] = c[5] + c[8] * a + 3 * c[9] * b;
  for (size_t k = 6; k < c.size(); ++k) r[k] = c[k];
  return r;
}

// Everything into a frame whose origin is at `corner`.
void moveFrame(Board& board, Point corner) {
  for (OutlineVertex& v : board.outline.vertices) v.at = v.at - corner;
  for (PlaneMode& m : board.outline.planeModes) {
    m.dx = moved(m.dx, corner.x / 1000, corner.y / 1000);
    m.dy = moved(m.dy, corner.x / 1000, corner.y / 1000);
  }
  for (Picture& p : board.pictures) {
    p.boardFromPicture[2] -= corner.x;
    p.boardFromPicture[5] -= corner.y;
  }
}

void sharePictures(const Board& parent, Board& offcut) {
  for (Picture& p : offcut.pictures) {
    p.heldBy = p.heldBy.value_or(parent.id);
    p.id.text = newIdText("picture");
  }
}

}  // namespace

Outline outlineOfPiece(const Outline& parent, const Polygon& piece) {
  std::vector<PieceEdge> edges;
  for (size_t i = 0; i < piece.size(); ++i)
    edges.push_back(edgeOf(parent, {piece[i], piece[(i + 1) % piece.size()]}));
  Outline outline;
  outline.planeModes = parent.planeModes;
  const size_t n = edges.size();
  for (size_t i = 0; i < n; ++i)
    addEdge(edges[(i + n - 1) % n], edges[i], edges[(i + 1) % n], outline.vertices);
  return outline;
}

Board pieceOfBoard(const Board& parent, const Polygon& piece) {
  Board board = parent;
  board.outline = outlineOfPiece(parent.outline, piece);
  const Rect whole = bounds(parent.outline.polygon()), box = bounds(piece);
  const double along = box.width() / std::max(1.0, whole.width());
  const double across = box.height() / std::max(1.0, whole.height());
  board.bowMm *= along * along;
  board.cupMm *= across * across;
  board.twistMm *= along * across;
  board.leftEndSawn = parent.leftEndSawn || box.x0 > whole.x0 + kSawnEndMm;
  board.rightEndSawn = parent.rightEndSawn || box.x1 < whole.x1 - kSawnEndMm;
  return board;
}

Board offcutBoard(const Board& parent, const Polygon& piece, const std::string& name) {
  Board board = pieceOfBoard(parent, piece);
  board.id.text = newIdText("board");
  board.name = name;
  board.offcutOf = parent.id;
  board.tag.reset();
  board.cutUp = false;
  board.place.clear();
  board.note.clear();
  board.refused.clear();
  board.extra = {};
  board.marks.clear();
  const Rect box = bounds(piece);
  const Point corner{box.x0, box.y0};
  for (const Mark& mark : parent.marks)
    for (Mark& part : markCutTo(mark, piece, corner)) board.marks.push_back(std::move(part));
  sharePictures(parent, board);
  moveFrame(board, corner);
  board.lengthMm = lengthOf(board.outline);
  board.widthsMm = widthsEvery(board.outline, kWidthStepMm);
  return board;
}

}  // namespace rackside
