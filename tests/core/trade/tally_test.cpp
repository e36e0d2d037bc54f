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

TEST_CASE("halves go up and down in turn, and exact feet are not lost in binary") {
  // Older NHLA wording, from memory: exact halves are given alternately to buyer and seller.
  HalfFeet halves;
  CHECK(surfaceMeasure(6 * in, 9 * ft, halves) == 5);  // 4.5
  CHECK(surfaceMeasure(8 * in, 12 * ft, halves) == 8);
  CHECK(surfaceMeasure(6 * in, 9 * ft, halves) == 4);
  CHECK(surfaceMeasure(7 * in, 6 * ft, halves) == 4);  // 3.5
  CHECK(surfaceMeasure(6 * in, 9 * ft) == 5);
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

TEST_CASE("a rough thickness has the standard one it reaches, scant when kiln-dried") {
  // NHLA 2023, page 56: 3/8 to 1 3/4 in may be 1/16 in scant, from 2 in on 1/8 in.
  CHECK(nominalName(nominalThicknessIn(25.4)) == "4/4");
  CHECK(nominalName(nominalThicknessIn(27)) == "4/4");
  CHECK(nominalName(nominalThicknessIn(31.75)) == "5/4");
  CHECK(nominalName(nominalThicknessIn(1.1875 * in)) == "5/4");  // nhla.com: 1 3/16 is 5/4
  CHECK(nominalName(nominalThicknessIn(1.875 * in)) == "8/4");
  CHECK(nominalName(nominalThicknessIn(1.875 * in, true)) == "7/4");  // air-dried
  CHECK(nominalName(nominalThicknessIn(52)) == "8/4");
  CHECK(nominalName(nominalThicknessIn(15.0 / 16 * in)) == "4/4");
  CHECK(nominalName(nominalThicknessIn(24)) == "4/4");
  CHECK(nominalName(nominalThicknessIn(20)) == "3/4");
  CHECK(nominalName(nominalThicknessIn(16)) == "5/8");
  CHECK(nominalName(nominalThicknessIn(2.25 * in)) == "8/4");  // 9/4 is no standard thickness
  CHECK(nominalThicknessIn(0) == 0);
  // engineeringtoolbox.com, d_1462.
  CHECK(surfacedThicknessIn(1) == 13.0 / 16);
  CHECK(surfacedThicknessIn(1.25) == 1 + 1.0 / 16);
  CHECK(surfacedThicknessIn(1.5) == 1 + 5.0 / 16);
  CHECK(surfacedThicknessIn(2) == 1.75);
}

TEST_CASE("quarters are read as the thickness they are") {
  CHECK(*thicknessFromQuarters("8/4") == Approx(50.8));
  CHECK(*thicknessFromQuarters(" 5/4 ") == Approx(31.75));
  CHECK_FALSE(thicknessFromQuarters("9/4"));
  CHECK_FALSE(thicknessFromQuarters("3/8"));
  CHECK_FALSE(thicknessFromQuarters("8/4 in"));
  CHECK_FALSE(thicknessFromQuarters(""));
}

TEST_CASE("a tapering board is measured a third from its narrow end") {
  // NHLA, from memory. The narrowest place leaves out the last inch of either end.
  Outline taper;
  for (const Point p : Polygon{{100, 0}, {2500, 0}, {2500, 220}, {100, 100}})
    taper.vertices.push_back({p, 0, {}});
  CHECK(tallyWidthMm(taper) == Approx(140));
  CHECK(narrowestMm(taper) == Approx(101.3).margin(0.1));
  Outline other;  // the same, its other end narrow
  for (const Point p : Polygon{{100, 0}, {2500, 0}, {2500, 100}, {100, 220}})
    other.vertices.push_back({p, 0, {}});
  CHECK(tallyWidthMm(other) == Approx(140));
  CHECK(tallyWidthMm(Outline{}) == 0);
  CHECK(narrowestMm(Outline{}) == 0);
  CHECK(tallyWidthMm(plank(200, 3000)) == Approx(200));
}
