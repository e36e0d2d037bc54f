// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/offcut.h"

#include <catch2/catch.hpp>

#include "core/geometry/polygon.h"
#include "core/wood/measure.h"
#include "core/wood/usable_wood.h"

using namespace rackside;

namespace {

// 2 m by 200 mm, its near edge known to 1 mm, its far edge to 0.3 mm.
Board plank() {
  Board b;
  b.id = {"board-parent"};
  b.name = "7";
  b.species = "cherry";
  b.thicknessMm = 27;
  b.outline.vertices = {{{0, 0}, 1, EdgeState::sure},
                        {{2000, 0}, 1, EdgeState::unsure},
                        {{2000, 200}, 0.3, EdgeState::sure},
                        {{0, 200}, 0.3, EdgeState::sure}};
  PlaneMode mode;
  mode.dx = {0.1, 0.2, -0.3, 0.4, 0.15, -0.2, 0.1, 0.05, -0.07, 0.3};
  mode.dy = {0.2, -0.1, 0.3, 0.1, -0.25, 0.2, -0.1, 0.15, 0.17, -0.3};
  b.outline.planeModes = {mode};
  b.bowMm = 8, b.cupMm = 4, b.twistMm = 6;
  Picture p;
  p.id = {"picture-1"};
  p.file = "face-a.jpg";
  p.mmPerPx = 0.5;
  p.boardFromPicture = {0.5, 0.01, -20, 0.02, -0.5, 230};
  b.pictures = {p};
  return b;
}

// The right-hand 800 mm, ripped at y = 150.
const Polygon kPiece{{1200, 0}, {2000, 0}, {2000, 150}, {1200, 150}};

Point onBoard(const Picture& p, double px, double py) {
  const auto& m = p.boardFromPicture;
  return {m[0] * px + m[1] * py + m[2], m[3] * px + m[4] * py + m[5]};
}

}  // namespace

TEST_CASE("an offcut keeps the ± of old edges and knows its sawn ones", "[offcut]") {
  const Board parent = plank();
  const Board offcut = offcutBoard(parent, kPiece, "7/1");
  CHECK(area({offcut.outline.polygon()}) == Approx(800 * 150).margin(0.1));
  // Sure wood: 1.96 mm in from the old near edge, which is known to 1 mm; the end of the board is
  // unsure, so 3.92 mm in; 0.49 mm in from what was sawn.
  const double sure = area(usableWood(offcut.outline));
  CHECK(sure == Approx((800 - 3.92 - 0.49) * (150 - 1.96 - 0.49)).margin(200));
  CHECK(offcut.leftEndSawn);
  CHECK_FALSE(offcut.rightEndSawn);
  CHECK(offcut.offcutOf == parent.id);
  CHECK(offcut.id != parent.id);
  CHECK(offcut.lengthMm.value == Approx(800));
  REQUIRE(offcut.widthsMm.size() >= 7);
  CHECK(offcut.widthsMm[3].value == Approx(150).margin(0.01));
}

TEST_CASE("the share of bow goes with length squared, of twist with length times width",
          "[offcut]") {
  const Board piece = pieceOfBoard(plank(), kPiece);
  CHECK(piece.bowMm == Approx(8 * 0.4 * 0.4));
  CHECK(piece.cupMm == Approx(4 * 0.75 * 0.75));
  CHECK(piece.twistMm == Approx(6 * 0.4 * 0.75));
}

TEST_CASE("a place in the wood stays the same place in the picture, and as well known",
          "[offcut]") {
  const Board parent = plank();
  const Board offcut = offcutBoard(parent, kPiece, "7/1");
  REQUIRE(offcut.pictures.size() == 1);
  const Picture& shared = offcut.pictures[0];
  CHECK(shared.heldBy == parent.id);
  CHECK(shared.file == "face-a.jpg");
  CHECK(shared.id != parent.pictures[0].id);
  const Point there = onBoard(parent.pictures[0], 2900, 60), here = onBoard(shared, 2900, 60);
  CHECK(here.x == Approx(there.x - 1200));
  CHECK(here.y == Approx(there.y));
  // The plane's ± is a field over the wood: two places keep the ± of their distance.
  const Measured was = distance(parent.outline, {1300, 20}, {1900, 120}, 0, 0);
  const Measured is = distance(offcut.outline, {100, 20}, {700, 120}, 0, 0);
  CHECK(is.value == Approx(was.value));
  CHECK(is.u95 == Approx(was.u95));
}

TEST_CASE("marks are cut to the offcut, with ids of their own", "[offcut]") {
  Board parent = plank();
  Mark inside, across, outside, crack;
  inside.id = {"m1"}, across.id = {"m2"}, outside.id = {"m3"}, crack.id = {"m4"};
  inside.kind = across.kind = outside.kind = MarkKind::knot;
  crack.kind = MarkKind::check;
  inside.onA = inside.onB = Ellipse{{1500, 70}, 20, 10, 0};
  across.onA = Polygon{{1150, 50}, {1250, 50}, {1250, 90}, {1150, 90}};
  across.depthMm = 4;
  outside.onB = Ellipse{{600, 70}, 20, 10, 0};
  crack.onA = Stroke{{{1000, 100}, {1300, 100}, {1400, 110}}, 1};
  parent.marks = {inside, across, outside, crack};
  const Board offcut = offcutBoard(parent, kPiece, "7/1");
  REQUIRE(offcut.marks.size() == 3);
  for (const Mark& m : offcut.marks) CHECK(parent.findMark(m.id) == nullptr);
  CHECK(std::get<Ellipse>(*offcut.marks[0].onA).centre == Point{300, 70});
  CHECK(std::get<Ellipse>(*offcut.marks[0].onB).centre == Point{300, 70});
  CHECK(area({std::get<Polygon>(*offcut.marks[1].onA)}) == Approx(50 * 40).margin(0.1));
  CHECK(offcut.marks[1].depthMm == 4);
  const Stroke& rest = std::get<Stroke>(*offcut.marks[2].onA);
  CHECK(norm(rest.points.front() - Point{0, 100}) < 0.01);
  CHECK(norm(rest.points.back() - Point{200, 110}) < 0.01);
}
