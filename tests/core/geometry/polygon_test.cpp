// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/polygon.h"

#include <catch2/catch.hpp>
#include <numbers>
#include <random>

using namespace rackside;

namespace {
const double pi = std::numbers::pi;

Polygon randomRectangle(std::mt19937& random) {
  std::uniform_real_distribution<double> any(0, 100);
  const double x0 = any(random), y0 = any(random);
  return rectangle({x0, y0, x0 + 5 + any(random), y0 + 5 + any(random)});
}

bool inAny(const Polygons& ps, Point q) {
  int winding = 0;
  for (const Polygon& p : ps)
    if (contains(p, q)) winding += signedArea(p) > 0 ? 1 : -1;
  return winding > 0;
}
}  // namespace

TEST_CASE("areas carry their turning sense") {
  const Polygon square = rectangle({10, 20, 13, 24});
  CHECK(signedArea(square) == Approx(12));
  CHECK(signedArea({square.rbegin(), square.rend()}) == Approx(-12));
  CHECK(signedArea({}) == 0);
}

TEST_CASE("a polygon contains its inside and its border") {
  const Polygon hook{{0, 0}, {10, 0}, {10, 10}, {5, 10}, {5, 5}, {0, 5}};
  CHECK(contains(hook, {2, 2}));
  CHECK(contains(hook, {0, 0}));
  CHECK(contains(hook, {7, 0}));
  CHECK(contains(hook, {5, 7}));
  CHECK_FALSE(contains(hook, {2, 7}));
  CHECK_FALSE(contains(hook, {-0.001, 2}));
  CHECK(distanceToBorder(hook, {2, 7}) == Approx(2));
}

TEST_CASE("an ellipse as polygon stays within its tolerance") {
  const Ellipse e{{50, 40}, 30, 12, 0.7};
  const Polygon p = ellipsePolygon(e, 0.2);
  CHECK(signedArea(p) == Approx(pi * 30 * 12).epsilon(0.02));
  for (int i = 0; i < 720; ++i) {
    const double t = i * pi / 360;
    const Point q = apply(Pose{e.centre, e.angleRad}, Point{30 * std::cos(t), 12 * std::sin(t)});
    CHECK(distanceToBorder(p, q) <= 0.2);
  }
}

TEST_CASE("a stroke is the wood within half its width") {
  const Stroke s{{{0, 0}, {100, 0}}, 4};
  CHECK(area(strokePolygons(s)) == Approx(400 + pi * 4).epsilon(0.02));
  CHECK(area(strokePolygons({{{0, 0}, {100, 0}}, 0})) > 0);
  CHECK(strokePolygons({}).empty());
}

TEST_CASE("offsets follow the formula of Steiner for a convex outline") {
  const Polygons square{rectangle({0, 0, 40, 30})};
  CHECK(area(offset(square, 5, 0.01)) == Approx(40 * 30 + 140 * 5 + pi * 25).epsilon(1e-3));
  CHECK(area(offset(square, -5)) == Approx(30 * 20).epsilon(1e-6));
  CHECK(offset(square, -16).empty());
}

TEST_CASE("offset keeps holes as holes") {
  const Polygons ring = subtract({rectangle({0, 0, 100, 100})}, {rectangle({30, 30, 70, 70})});
  REQUIRE(ring.size() == 2);
  CHECK(area(offset(ring, -5)) == Approx(90 * 90 - (40 * 40 + 160 * 5 + pi * 25)).epsilon(1e-3));
}

TEST_CASE("booleans agree with a count of points") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> any(0, 200);
  for (int round = 0; round < 30; ++round) {
    const Polygons a{randomRectangle(random), randomRectangle(random)};
    const Polygons b{randomRectangle(random)};
    const Polygons united = unite(a, b), met = intersect(a, b), left = subtract(a, b);
    CHECK(area(united) == Approx(area(left) + area(intersect(b, united))).margin(0.5));
    for (int i = 0; i < 200; ++i) {
      const Point q{any(random), any(random)};
      const bool inA = contains(a[0], q) || contains(a[1], q), inB = contains(b[0], q);
      CHECK(inAny(united, q) == (inA || inB));
      CHECK(inAny(met, q) == (inA && inB));
      CHECK(inAny(left, q) == (inA && !inB));
    }
  }
}

TEST_CASE("simple outlines are told from crossing ones") {
  CHECK(isSimple(rectangle({0, 0, 1, 1})));
  CHECK_FALSE(isSimple({{0, 0}, {10, 10}, {10, 0}, {0, 10}}));
  CHECK_FALSE(isSimple({{0, 0}, {10, 0}}));
  CHECK_FALSE(isSimple({{0, 0}, {10, 0}, {5, 0}, {5, 5}}));             // folds back on itself
  CHECK_FALSE(isSimple({{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}}));  // a corner on an edge
  CHECK_FALSE(isSimple({{0, 0}, {10, 0}, {10, 0}, {10, 10}}));          // a repeated corner
  CHECK(isSimple({{0, 0}, {5, 0}, {10, 0}, {10, 10}}));  // a corner on a straight edge
}

TEST_CASE("a line parts a region into what lies left and what lies right of it") {
  const Polygons board{rectangle({0, 0, 1000, 200})};
  const Segment line{{400, -10}, {400, 210}};
  CHECK(area(keepLeftOf(board, line)) == Approx(400 * 200));
  CHECK(area(keepLeftOf(board, {line.to, line.from})) == Approx(600 * 200));
  const Segment slanted{{0, 50}, {1000, 150}};
  CHECK(area(keepLeftOf(board, slanted)) == Approx(100 * 1000).epsilon(1e-5));
}

TEST_CASE("a pose turns, then moves") {
  const Point q = apply(Pose{{10, 20}, pi / 2}, Point{3, 0});
  CHECK(q.x == Approx(10));
  CHECK(q.y == Approx(23));
}
