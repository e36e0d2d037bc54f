// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/target.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace rackside;

namespace {
double lengthOf(const Target& t) {
  return norm(t.points.at(1) - t.points.at(0));
}
double heightOf(const Target& t) {
  return norm(t.points.at(2) - t.points.at(1));
}
}  // namespace

TEST_CASE("a bank card has the size of ISO/IEC 7810 ID-1") {
  // ISO/IEC 7810: ID-1 85.60 × 53.98 mm, 0.76 ± 0.08 mm thick; an unused card's limits 85.47 to
  // 85.72 and 53.92 to 54.03 mm (limits from memory).
  const Target card = bankCardTarget();
  CHECK(lengthOf(card) == Approx(85.60).margin(1e-9));
  CHECK(heightOf(card) == Approx(53.98).margin(1e-9));
  CHECK(card.thicknessMm == 0.76);
  CHECK(3 * card.thicknessSigmaMm >= 0.08);
  // The limits lie within three of our standard deviations, and not within one.
  CHECK(3 * card.stretchSigmaX * 85.60 > 0.12);
  CHECK(card.stretchSigmaX * 85.60 < 0.13);
}

TEST_CASE("sheets have the sizes of ISO 216 and of ANSI A") {
  // ISO 216: A0 has 1 m² and sides as 1 to √2, each next size is half of it, whole millimetres
  // downward; A4 is 210 × 297 mm, ± 2 mm from 150 to 600 mm.
  const Target a4 = a4Target();
  CHECK(lengthOf(a4) == Approx(297));
  CHECK(heightOf(a4) == Approx(210));
  const double a0Short = 1000 / std::pow(2, 0.25);
  CHECK(heightOf(a4) == std::floor(a0Short / 4));
  CHECK(lengthOf(a4) == std::floor(a0Short * std::sqrt(2.0) / 4));
  CHECK(3 * a4.stretchSigmaX * 297 >= 2);
  // ANSI/ASME Y14.1 size A (from memory): 8 1/2 × 11 in.
  const Target letter = letterTarget();
  CHECK(lengthOf(letter) == Approx(11 * 25.4));
  CHECK(heightOf(letter) == Approx(8.5 * 25.4));
}
