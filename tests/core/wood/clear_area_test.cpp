// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/clear_area.h"

#include <catch2/catch.hpp>
#include <random>

using namespace rackside;

namespace {

Mark mark(MarkKind kind, MarkShape shape) {
  Mark m;
  m.kind = kind;
  m.onA = std::move(shape);
  return m;
}

Board boardWith(std::vector<Mark> marks) {
  Board b;
  b.thicknessMm = 27;
  b.marks = std::move(marks);
  return b;
}

bool covers(const Polygons& ps, Point q) {
  int winding = 0;
  for (const Polygon& p : ps)
    if (contains(p, q)) winding += signedArea(p) > 0 ? 1 : -1;
  return winding > 0;
}

bool bars(const Board& b, Face face, const FaceAllows& allows) {
  return !forbidden(b, face, allows, Shop{}).empty();
}

const Ellipse kSpot{{500, 100}, 20, 10, 0};

}  // namespace

TEST_CASE("a clearance grows a shape to every side") {
  // Oracle: the distance from the disc's centre, not polygons.
  std::mt19937 random(11);
  std::uniform_real_distribution<double> any(-60, 60);
  const Board b = boardWith({mark(MarkKind::knot, Ellipse{{500, 100}, 20, 20, 0})});
  const Polygons barred = forbidden(b, Face::A, {}, Shop{});
  for (int i = 0; i < 5000; ++i) {
    const Point off{any(random), any(random)};
    const double beyond = norm(off) - (20 + 8);
    if (std::abs(beyond) < 0.4) continue;  // curves are within 0.2 mm, offsets within 0.1 mm
    CHECK(covers(barred, Point{500, 100} + off) == (beyond < 0));
  }
}

TEST_CASE("a check bars the wood past its tips, along the line it was drawn") {
  const Board b = boardWith({mark(MarkKind::check, Stroke{{{0, 50}, {120, 50}}, 2})});
  const Polygons barred = forbidden(b, Face::A, {}, Shop{});
  CHECK(covers(barred, {144, 50}));
  CHECK_FALSE(covers(barred, {150, 50}));
  CHECK(covers(barred, {60, 53.5}));
  CHECK_FALSE(covers(barred, {60, 54.5}));

  const Board slanted = boardWith({mark(MarkKind::check, Stroke{{{0, 0}, {80, 60}, {84, 60}}, 0})});
  // The last 4 mm waver; the direction is that of the last 10 mm or more.
  const Polygons past = forbidden(slanted, Face::A, {}, Shop{});
  const Point direction = (1 / std::hypot(84.0, 60.0)) * Point{84, 60};
  CHECK(covers(past, Point{84, 60} + 24.0 * direction));
  CHECK_FALSE(covers(past, Point{84, 60} + 30.0 * direction));
}

TEST_CASE("a split drawn as an area runs on along the board") {
  const Board b = boardWith({mark(MarkKind::split, rectangle({100, 40, 200, 44}))});
  const Rect box = bounds(forbidden(b, Face::A, {}, Shop{}).at(0));
  CHECK(box.x0 == Approx(100 - 25 - 3).margin(0.2));
  CHECK(box.x1 == Approx(200 + 25 + 3).margin(0.2));
  CHECK(box.y0 == Approx(37).margin(0.2));
  CHECK(box.y1 == Approx(47).margin(0.2));
}

TEST_CASE("permissions open exactly what they name") {
  FaceAllows all{true, true, true, SapwoodRule::yes};
  struct Row {
    MarkKind kind;
    Soundness soundness;
    bool openable;
  };
  const auto row = GENERATE(
      Row{MarkKind::knot, Soundness::sound, true}, Row{MarkKind::knot, Soundness::unknown, false},
      Row{MarkKind::knot, Soundness::loose, true}, Row{MarkKind::sapwood, Soundness::unknown, true},
      Row{MarkKind::stain, Soundness::unknown, true},
      Row{MarkKind::holeToFill, Soundness::unknown, true},
      Row{MarkKind::barkPocket, Soundness::unknown, true},
      Row{MarkKind::wormHoles, Soundness::sound, true},
      Row{MarkKind::wormHoles, Soundness::unknown, false},
      Row{MarkKind::check, Soundness::unknown, false},
      Row{MarkKind::split, Soundness::unknown, false},
      Row{MarkKind::metal, Soundness::unknown, false},
      Row{MarkKind::avoid, Soundness::unknown, false},
      Row{MarkKind::wane, Soundness::unknown, false},
      Row{MarkKind::pith, Soundness::unknown, false});
  CAPTURE(std::string(name(row.kind)));
  Mark m = mark(row.kind, kSpot);
  m.soundness = row.soundness;
  CHECK(bars(boardWith({m}), Face::A, {}));
  CHECK(bars(boardWith({m}), Face::A, all) == !row.openable);
}

TEST_CASE("a loose knot is held where it may be filled, a sound one where knots may be") {
  FaceAllows fills, knots;
  fills.filledHoles = true;
  knots.soundKnots = true;
  Mark m = mark(MarkKind::knot, kSpot);
  m.soundness = Soundness::loose;
  CHECK_FALSE(bars(boardWith({m}), Face::A, fills));
  CHECK(bars(boardWith({m}), Face::A, knots));
  m.through = true;  // dug out, it would leave a hole right through the part
  CHECK(bars(boardWith({m}), Face::A, fills));
  m.through = false;
  m.soundness = Soundness::sound;
  CHECK(bars(boardWith({m}), Face::A, fills));
  CHECK_FALSE(bars(boardWith({m}), Face::A, knots));
}

TEST_CASE("a filled check must have a known depth") {
  Mark m = mark(MarkKind::check, Stroke{{{0, 0}, {50, 0}}, 1});
  FaceAllows fills;
  fills.filledHoles = true;
  CHECK(bars(boardWith({m}), Face::A, fills));
  m.depthMm = 4;
  CHECK_FALSE(bars(boardWith({m}), Face::A, fills));
}

TEST_CASE("what goes through or spoils the body counts on both faces") {
  const auto onB = [](MarkKind kind, auto change) {
    Mark m = mark(kind, kSpot);
    change(m);
    return bars(boardWith({m}), Face::B, {});
  };
  const auto asIs = [](Mark&) {};
  CHECK_FALSE(onB(MarkKind::knot, asIs));
  CHECK(onB(MarkKind::knot, [](Mark& m) { m.through = true; }));
  CHECK(onB(MarkKind::knot, [](Mark& m) { m.depthMm = 27; }));
  CHECK_FALSE(onB(MarkKind::knot, [](Mark& m) { m.depthMm = 26; }));
  for (const MarkKind kind :
       {MarkKind::split, MarkKind::shake, MarkKind::honeycomb, MarkKind::metal, MarkKind::avoid})
    CHECK(onB(kind, asIs));
  CHECK(onB(MarkKind::wormHoles, [](Mark& m) { m.live = true; }));
  CHECK_FALSE(onB(MarkKind::stain, asIs));
}

TEST_CASE("a mark known from the other face is grown by the registration's ±") {
  Mark m = mark(MarkKind::metal, Ellipse{{500, 100}, 10, 10, 0});
  Board b = boardWith({m});
  const double plain = bounds(forbidden(b, Face::B, {}, Shop{}).at(0)).width();
  b.faceB = FaceRegistration{4, "outline"};
  CHECK(bounds(forbidden(b, Face::B, {}, Shop{}).at(0)).width() == Approx(plain + 8).margin(0.3));
  CHECK(bounds(forbidden(b, Face::A, {}, Shop{}).at(0)).width() == Approx(plain).margin(0.3));
}

TEST_CASE("proposals count once taken, and a favoured region bars nothing") {
  Mark m = mark(MarkKind::knot, kSpot);
  m.author = MarkAuthor::proposal;
  m.confirmed = false;
  CHECK_FALSE(bars(boardWith({m}), Face::A, {}));
  m.confirmed = true;
  CHECK(bars(boardWith({m}), Face::A, {}));
  CHECK_FALSE(bars(boardWith({mark(MarkKind::favour, kSpot)}), Face::A, {}));
}

TEST_CASE("a shallow mark vanishes with the stock that is planed away") {
  Mark m = mark(MarkKind::stain, kSpot);
  m.depthMm = 2;
  Board b = boardWith({m});
  CHECK_FALSE(forbidden(b, Face::A, {}, Shop{}, 1.9).empty());
  CHECK(forbidden(b, Face::A, {}, Shop{}, 2.0).empty());
  b.marks[0].kind = MarkKind::metal;
  CHECK_FALSE(forbidden(b, Face::A, {}, Shop{}, 2.0).empty());
}

TEST_CASE("metal bars cuts, other marks do not") {
  CHECK(barredToCuts(boardWith({mark(MarkKind::knot, kSpot)}), Shop{}).empty());
  Mark nail;
  nail.kind = MarkKind::metal;
  nail.onB = Ellipse{{500, 100}, 2, 2, 0};
  const Polygons barred = barredToCuts(boardWith({nail}), Shop{});
  CHECK(covers(barred, {500, 126}));
  CHECK_FALSE(covers(barred, {500, 129}));
}
