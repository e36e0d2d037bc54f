// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/shop.h"

#include <catch2/catch.hpp>

#include "core/job/part.h"

using namespace rackside;

TEST_CASE("the default shop is valid and knows a clearance for every mark") {
  const Shop shop;
  CHECK(validate(shop).ok());
  for (const MarkKind kind : allMarkKinds()) CHECK(shop.clearanceMm.count(kind) == 1);
  // The issue's own figures (common practice, no source): 25 mm past a check, 5–10 mm round a knot.
  CHECK(shop.clearance(MarkKind::check) == 25);
  CHECK(shop.clearance(MarkKind::knot) >= 5);
  CHECK(shop.clearance(MarkKind::knot) <= 10);
}

TEST_CASE("a clearance the shop has not set falls back to the default") {
  Shop shop;
  shop.clearanceMm.clear();
  shop.clearanceMm[MarkKind::knot] = 10;
  CHECK(shop.clearance(MarkKind::knot) == 10);
  CHECK(shop.clearance(MarkKind::check) == 25);
}

TEST_CASE("a setting out of reason is refused by its name") {
  Shop shop;
  shop.ripKerfMm = -1;
  REQUIRE_FALSE(validate(shop).ok());
  CHECK(validate(shop).error().message.find("rip kerf") != std::string::npos);
  shop = {};
  shop.show.denominator = 10;
  CHECK_FALSE(validate(shop).ok());
  shop = {};
  shop.clearanceMm[MarkKind::gum] = NAN;
  CHECK_FALSE(validate(shop).ok());
}

TEST_CASE("long parts get the greater thickness allowance") {
  const Shop shop;
  CHECK(shop.thicknessAllowance(600) == shop.thicknessAllowanceMm);
  CHECK(shop.thicknessAllowance(1500) == shop.longThicknessAllowanceMm);
}

TEST_CASE("a part is checked and each fault is named") {
  Part part;
  part.name = "Seat";
  part.lengthMm = 900;
  part.widthMm = 300;
  part.thicknessMm = 22;
  CHECK(validate(part).ok());
  const auto refused = [&part](const char* word) {
    const Status s = validate(part);
    REQUIRE_FALSE(s.ok());
    CHECK(s.error().message.find(word) != std::string::npos);
    CHECK(s.error().message.find("Seat") != std::string::npos);
  };
  part.copies = 0;
  refused("copies");
  part.copies = 1;
  part.outline = Polygon{{0, 0}, {901, 0}, {901, 300}, {0, 300}};
  refused("beyond");
  part.outline = Polygon{{0, 0}, {900, 300}, {900, 0}, {0, 300}};
  refused("crosses");
  part.outline.reset();
  part.glueUp = {true, 200, 100};
  refused("strip");
}
