// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include "app/sheets/paper.h"

using namespace rackside::sheets;

TEST_CASE("paper has the sizes of ISO 216 and of ANSI A") {
  // ISO 216: A4 is 210 × 297 mm. ANSI/ASME Y14.1 size A (from memory): 8 1/2 × 11 in.
  CHECK(paperSizeMm(Paper::a4, false) == QSizeF(210, 297));
  CHECK(paperSizeMm(Paper::a4, true) == QSizeF(297, 210));
  CHECK(paperSizeMm(Paper::letter, false).width() == Approx(8.5 * 25.4));
  CHECK(paperSizeMm(Paper::letter, false).height() == Approx(11 * 25.4));
}
