// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/usable_wood.h"

#include <catch2/catch.hpp>

using namespace rackside;

namespace {

Outline boxOutline(double sigmaMm) {
  Outline o;
  for (const Point p : {Point{0, 0}, Point{1000, 0}, Point{1000, 200}, Point{0, 200}})
    o.vertices.push_back({p, sigmaMm, EdgeState::sure});
  return o;
}

}  // namespace

TEST_CASE("the usable wood is the outline less 1.96 sigma of each stretch", "[usable]") {
  Outline o = boxOutline(1.0);
  // 0.1 mm of polygon tolerance on top of 1.96 mm, from all four sides.
  CHECK(area(usableWood(o)) == Approx((1000 - 4.12) * (200 - 4.12)).margin(5));
  o.vertices[0].state = EdgeState::unsure;  // the near edge: twice 1.96
  const Polygons wood = usableWood(o);
  REQUIRE(wood.size() == 1);
  CHECK_FALSE(contains(wood[0], {500, 3.8}));
  CHECK(contains(wood[0], {500, 4.2}));
}

TEST_CASE("an unsure stretch keeps at least 3 mm", "[usable]") {
  Outline o = boxOutline(0.1);
  CHECK(edgeMarginMm(o.vertices[0], o.vertices[1]) == Approx(0.196));
  o.vertices[0].state = EdgeState::unsure;
  CHECK(edgeMarginMm(o.vertices[0], o.vertices[1]) == 3);
}

TEST_CASE("a face without picture or mark was not looked at", "[usable]") {
  Board board;
  CHECK(lookedAt(board, Face::A));  // drawn by hand
  CHECK_FALSE(lookedAt(board, Face::B));
  Picture picture;
  picture.face = Face::B;
  board.pictures.push_back(picture);
  CHECK_FALSE(lookedAt(board, Face::A));
  CHECK(lookedAt(board, Face::B));
  Mark knot;
  knot.onA = Ellipse{{100, 100}, 5, 5, 0};
  board.marks.push_back(knot);
  CHECK(lookedAt(board, Face::A));
}
