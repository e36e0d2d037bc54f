// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/tally.h"

#include <catch2/catch.hpp>

using namespace rackside;

namespace {
constexpr double in = 25.4, ft = 304.8;

Outline plank(double widthMm, double lengthMm) {
  Outline o;
  for (const Point p : rectangle({0, 0, lengthMm, widthMm})) o.vertices.push_back({p, 0, {}});
  return o;
}
}  // namespace

TEST_CASE("surface measure follows the published examples") {
  // goodwoodcorp.com, HardwoodGrading: 6-7/16 in × 10 ft 9 in → 5.36 → 5; the inches are dropped.
  CHECK(surfaceMeasure(6.4375 * in, 10 * ft + 9 * in) == 5);
  // gophuongdong.com, hardwood lumber measurement: 6½ × 8 → 4; 8 × 12 → 8; 10 × 13 → 10.83 → 11.
  CHECK(surfaceMeasure(6.5 * in, 8 * ft) == 4);
  CHECK(surfaceMeasure(8 * in, 12 * ft) == 8);
  CHECK(surfaceMeasure(10 * in, 13 * ft) == 11);
}

TEST_CASE("a half foot is rounded upward, and exact feet are not lost in binary") {
  CHECK(surfaceMeasure(6 * in, 9 * ft) == 5);  // 4.5; sources differ, see the header
  for (int feet = 1; feet <= 40; ++feet) CHECK(surfaceMeasure(12 * in, feet * ft) == feet);
  CHECK(surfaceMeasure(12 * in, 8 * ft - 1) == 7);
}

TEST_CASE("board feet are surface measure times nominal thickness") {
  CHECK(boardFeet(8, 1.25) == 10);
  CHECK(boardFeet(8, 0.75) == 8);  // below 1 in counts as 1 in (goodwoodcorp.com)
  // The definition: 1 in × 12 in × 1 ft is one board foot.
  CHECK(boardFeetExact(plank(12 * in, ft), in) == Approx(1));
  CHECK(surfaceMeasureExactFt2(plank(6 * in, 10 * ft)) == Approx(5));
}

TEST_CASE("a rough thickness has the nominal it is sold as") {
  // Common practice, no source: the greatest quarter reached within 1/16 in.
  CHECK(nominalName(nominalThicknessIn(25.4)) == "4/4");
  CHECK(nominalName(nominalThicknessIn(27)) == "4/4");
  CHECK(nominalName(nominalThicknessIn(31.75)) == "5/4");
  CHECK(nominalName(nominalThicknessIn(52)) == "8/4");
  CHECK(nominalName(nominalThicknessIn(24)) == "4/4");
  CHECK(nominalName(nominalThicknessIn(20)) == "3/4");
  CHECK(nominalThicknessIn(0) == 0.25);
}

TEST_CASE("the width of an uneven board is taken in the middle of each third") {
  Outline taper;
  for (const Point p : Polygon{{100, 0}, {2500, 0}, {2500, 220}, {100, 100}})
    taper.vertices.push_back({p, 0, {}});
  CHECK(tallyWidthMm(taper) == Approx(160));
  CHECK(tallyWidthMm(Outline{}) == 0);
}
